// A conclusion goes stale: whatever comes after it is named, and the report is a draft again.
#include "core/case/conclusion_basis.hpp"

#include "tests/unit/case/cases.hpp"

using namespace qb;
using namespace qb::test;

namespace {

using texts = std::vector<std::string>;

instant concluded_at() {
  return made_start() + std::chrono::days{3};
}

// A reader concluded on the case as it is.
void conclude(received_kit& received, const std::vector<finding>& found = {}) {
  const test_case c = case_with(received, house_rules(), {}, found);
  received.conclusions.push_back(
      {received.kit, "as it stands", "Dr Osk", concluded_at(), basis_text(basis_in(c, received))});
}

texts since(const received_kit& received, const case_rules& rules = house_rules(),
            const std::vector<finding>& found = {}, const made_test& log = {}) {
  const test_case c = case_with(received, rules, log, found);
  CHECK(is_draft(c) == !c.since.empty());
  return c.since;
}

gas_reading another(int tube, int h2) {
  gas_reading r = with_readings({h2}).readings.front();
  r.sample = tube;
  r.mark.entry = 99;
  r.taken_in = parse_rfc3339_utc("2027-04-12T14:20:00Z").value();
  return r;
}

} // namespace

TEST_CASE("a conclusion stands as long as nothing came after it") {
  received_kit received = with_readings(rising);
  CHECK(case_with(received).since.empty());
  CHECK(is_draft(case_with(received)));
  conclude(received);
  CHECK(since(received).empty());
}

TEST_CASE("a reading after the conclusion is named with its moment, and what it changes") {
  received_kit received = with_readings({4, 5, 6, 7, 9, 12, 14});
  conclude(received);
  CHECK(since(received).empty());
  received.readings.push_back(another(8, 50));
  CHECK(since(received) == texts{"1 reading of tube 8 (2027-04-12 14:20 UTC)",
                                 "not found any more: reading-missing (review) of tube 8"});
}

TEST_CASE("a choice, an override and one taken back are named with who made them") {
  received_kit received = with_readings(rising);
  received.readings.push_back(another(8, 50));
  conclude(received);
  const instant then = concluded_at() + std::chrono::hours{2};
  received.choices.push_back({8, 99, "R. Ashdown", "the first leaked", then});
  CHECK(since(received).front() ==
        "R. Ashdown chose between the readings of tube 8 (2027-04-09 08:30 UTC)");
  received.choices.clear();
  received.overrides.push_back({received.kit, "sample-late", 8, "Dr Vane", "seen", then, false});
  CHECK(since(received) == texts{"Dr Vane set aside sample-late of tube 8 (2027-04-09 08:30 UTC)"});
  conclude(received);
  received.overrides.push_back(
      {received.kit, "sample-late", 8, "Dr Vane", "after all", then, true});
  CHECK(since(received).front().rfind("Dr Vane let stand again sample-late", 0) == 0);
}

TEST_CASE("a box told again, a paper sheet and another version of the log are named") {
  received_kit received = with_readings(rising);
  conclude(received);
  arrival box;
  box.kit = received.kit;
  box.at = concluded_at() - std::chrono::days{1}; // arrived before, told after
  box.entered = concluded_at() + std::chrono::hours{2};
  received.arrivals.push_back(box);
  CHECK(since(received) == texts{"the box was told again (2027-04-09 08:30 UTC)"});
  received.arrivals.clear();
  received.papers.push_back(sheet({0, 15}));
  received.papers.back().entered = concluded_at() + std::chrono::hours{3};
  CHECK(since(received).front() == "a paper sheet was entered (2027-04-09 09:30 UTC)");
  received.papers.clear();
  made_test grown;
  grown.tube_4_late = std::chrono::seconds{1};
  CHECK(since(received, house_rules(), {}, grown).front() == "another version of the log came");
}

TEST_CASE("findings and answers that changed are named, one line a rule") {
  received_kit received = with_readings(rising);
  conclude(received);
  const std::vector<finding> lids{
      {"lid-bad", consequence::review, sample_number(7), {}, {7}, "the lid of tube 7"},
      {"lid-bad", consequence::review, sample_number(8), {}, {8}, "the lid of tube 8"}};
  CHECK(since(received, house_rules(), lids) ==
        texts{"found now: lid-bad (cannot-be-used) of tubes 7, 8",
              "the answer now: nac-2017-h2-90 cannot-be-determined",
              "the answer was: nac-2017-h2-90 meets"});
  conclude(received, lids);
  CHECK(since(received, house_rules(), lids).empty());
  case_rules milder = house_rules(); // the laboratory weighs it otherwise now
  milder.profile.consequences.push_back({"lid-bad", consequence::note, {}});
  CHECK(since(received, milder, lids).front() == "found now: lid-bad (note) of tubes 7, 8");
}

TEST_CASE("a clock that was set back does not hide what came later") {
  received_kit received = with_readings({4, 5, 6, 7, 9, 12, 14});
  conclude(received);
  received.readings.push_back(another(8, 50));
  received.readings.back().taken_in = concluded_at() - std::chrono::days{30};
  CHECK(since(received).front() == "1 reading of tube 8 (2027-03-10 06:30 UTC)");
}

TEST_CASE("of a conclusion without what it was drawn from the moments decide") {
  received_kit received = with_readings(rising);
  received.conclusions.push_back({received.kit, "as it stands", "Dr Osk", concluded_at()});
  CHECK(since(received).empty());
  received.readings.push_back(another(8, 50)); // on the 12th, three days later
  CHECK(since(received) == texts{"1 reading of tube 8 (2027-04-12 14:20 UTC)"});
}

TEST_CASE("what was seen is read back as it was written, and nothing else is read") {
  const received_kit received = with_readings(rising);
  const std::string text = basis_text(basis_in(case_with(received), received));
  const auto back = read_basis(text);
  REQUIRE(back);
  CHECK(basis_text(*back) == text);
  CHECK(back->readings == 10);
  CHECK_FALSE(read_basis(""));
  CHECK_FALSE(read_basis("{}"));
  CHECK_FALSE(read_basis(text.substr(1)));
}
