// A conclusion goes stale: whatever comes after it is named, and the report is a draft again.
#include "core/lab/seen.hpp"

#include "tests/unit/lab/cases.hpp"

using namespace qb;
using namespace qb::test;

namespace {

using texts = std::vector<std::string>;

instant concluded_at() {
  return made_start() + std::chrono::days{3};
}

// A reader concluded on the case as it is.
void conclude(bench_kit& bench, const std::vector<finding>& found = {}) {
  const test_case c = case_with(bench, house_rules(), {}, found);
  bench.conclusions.push_back(
      {bench.kit, "as it stands", "Dr Osk", concluded_at(), seen_text(seen_in(c, bench))});
}

texts since(const bench_kit& bench, const case_rules& rules = house_rules(),
            const std::vector<finding>& found = {}, const made_test& log = {}) {
  const test_case c = case_with(bench, rules, log, found);
  CHECK(is_draft(c) == !c.since.empty());
  return c.since;
}

gas_reading another(int tube, int h2) {
  gas_reading r = with_readings({h2}).readings.front();
  r.sample = tube;
  r.entry = 99;
  r.taken_in = parse_rfc3339_utc("2027-04-12T14:20:00Z").value();
  return r;
}

} // namespace

TEST_CASE("a conclusion stands as long as nothing came after it") {
  bench_kit bench = with_readings(rising);
  CHECK(case_with(bench).since.empty());
  CHECK(is_draft(case_with(bench)));
  conclude(bench);
  CHECK(since(bench).empty());
}

TEST_CASE("a reading after the conclusion is named with its moment, and what it changes") {
  bench_kit bench = with_readings({4, 5, 6, 7, 9, 12, 14});
  conclude(bench);
  CHECK(since(bench).empty());
  bench.readings.push_back(another(8, 50));
  CHECK(since(bench) == texts{"1 reading of tube 8 (2027-04-12 14:20 UTC)",
                              "not found any more: reading-missing (review) of tube 8"});
}

TEST_CASE("a choice, an override and one taken back are named with who made them") {
  bench_kit bench = with_readings(rising);
  bench.readings.push_back(another(8, 50));
  conclude(bench);
  const instant then = concluded_at() + std::chrono::hours{2};
  bench.choices.push_back({8, 99, "R. Ashdown", "the first leaked", then});
  CHECK(since(bench).front() ==
        "R. Ashdown chose between the readings of tube 8 (2027-04-09 08:30 UTC)");
  bench.choices.clear();
  bench.overrides.push_back({bench.kit, "sample-late", 8, "Dr Vane", "seen", then, false});
  CHECK(since(bench) == texts{"Dr Vane set aside sample-late of tube 8 (2027-04-09 08:30 UTC)"});
  conclude(bench);
  bench.overrides.push_back({bench.kit, "sample-late", 8, "Dr Vane", "after all", then, true});
  CHECK(since(bench).front().rfind("Dr Vane let stand again sample-late", 0) == 0);
}

TEST_CASE("a box told again, a paper sheet and another version of the log are named") {
  bench_kit bench = with_readings(rising);
  conclude(bench);
  arrival box;
  box.kit = bench.kit;
  box.at = concluded_at() - std::chrono::days{1}; // arrived before, told after
  box.entered = concluded_at() + std::chrono::hours{2};
  bench.arrivals.push_back(box);
  CHECK(since(bench) == texts{"the box was told again (2027-04-09 08:30 UTC)"});
  bench.arrivals.clear();
  bench.papers.push_back(sheet({0, 15}));
  bench.papers.back().entered = concluded_at() + std::chrono::hours{3};
  CHECK(since(bench).front() == "a paper sheet was entered (2027-04-09 09:30 UTC)");
  bench.papers.clear();
  made_test grown;
  grown.tube_4_late = std::chrono::seconds{1};
  CHECK(since(bench, house_rules(), {}, grown).front() == "another version of the log came");
}

TEST_CASE("findings and answers that changed are named, one line a rule") {
  bench_kit bench = with_readings(rising);
  conclude(bench);
  const std::vector<finding> lids{
      {"lid-bad", consequence::review, sample_number(7), {}, {7}, "the lid of tube 7"},
      {"lid-bad", consequence::review, sample_number(8), {}, {8}, "the lid of tube 8"}};
  CHECK(since(bench, house_rules(), lids) ==
        texts{"found now: lid-bad (cannot-be-used) of tubes 7, 8",
              "the answer now: nac-2017-h2-90 cannot-be-determined",
              "the answer was: nac-2017-h2-90 meets"});
  conclude(bench, lids);
  CHECK(since(bench, house_rules(), lids).empty());
  case_rules milder = house_rules(); // the laboratory weighs it otherwise now
  milder.profile.consequences.push_back({"lid-bad", consequence::note, {}});
  CHECK(since(bench, milder, lids).front() == "found now: lid-bad (note) of tubes 7, 8");
}

TEST_CASE("a clock that was set back does not hide what came later") {
  bench_kit bench = with_readings({4, 5, 6, 7, 9, 12, 14});
  conclude(bench);
  bench.readings.push_back(another(8, 50));
  bench.readings.back().taken_in = concluded_at() - std::chrono::days{30};
  CHECK(since(bench).front() == "1 reading of tube 8 (2027-03-10 06:30 UTC)");
}

TEST_CASE("of a conclusion without what it was drawn from the moments decide") {
  bench_kit bench = with_readings(rising);
  bench.conclusions.push_back({bench.kit, "as it stands", "Dr Osk", concluded_at()});
  CHECK(since(bench).empty());
  bench.readings.push_back(another(8, 50)); // on the 12th, three days later
  CHECK(since(bench) == texts{"1 reading of tube 8 (2027-04-12 14:20 UTC)"});
}

TEST_CASE("what was seen is read back as it was written, and nothing else is read") {
  const bench_kit bench = with_readings(rising);
  const std::string text = seen_text(seen_in(case_with(bench), bench));
  const auto back = read_seen(text);
  REQUIRE(back);
  CHECK(seen_text(*back) == text);
  CHECK(back->readings == 10);
  CHECK_FALSE(read_seen(""));
  CHECK_FALSE(read_seen("{}"));
  CHECK_FALSE(read_seen(text.substr(1)));
}
