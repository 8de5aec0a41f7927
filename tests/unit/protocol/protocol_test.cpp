// The shipped protocols and profile, and each way in which such a file is refused.
// A laboratory writes its own files, so every refusal must say which line and field to mend.
#include "core/base/json.hpp"
#include "core/protocol/profile.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

// The file with one piece of text replaced, which must be there.
std::string with(std::string text, const std::string& what, const std::string& by) {
  const auto at = text.find(what);
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), by);
}

std::string lactulose_file() {
  return source_file("assets/protocols/lactulose-10g.json");
}
std::string fenwick_file() {
  return source_file("assets/laboratories/fenwick-vale.json");
}

std::string protocol_said(const std::string& what, const std::string& by) {
  const auto read = read_protocol(with(lactulose_file(), what, by));
  return read ? "" : sentence(read.error());
}
std::string profile_said(const std::string& what, const std::string& by) {
  const auto read = read_profile(with(fenwick_file(), what, by));
  return read ? "" : sentence(read.error());
}

bool says(const std::string& sentence, const std::string& piece) {
  return sentence.find(piece) != std::string::npos;
}

} // namespace

TEST_CASE("every rule of the shipped files names a source that is listed, with how it is known") {
  for (const std::string& id : shipped_ids()) {
    const protocol* p = &shipped(id);
    CHECK(p->id == id);
    std::vector<rule_ref> all{p->age_why,     p->sugar.why, p->sugar.water_why, p->grid_why,
                              p->posting_why, p->scale_why, p->breath_why,      p->kit_why};
    if (p->bounds) all.push_back(p->bounds_why);
    for (const auto& x : p->sugar.forms)
      all.push_back(x.why);
    for (const auto& x : p->windows)
      all.push_back(x.why);
    for (const auto& x : p->washouts)
      all.push_back(x.why);
    for (const auto& x : p->during_test)
      all.push_back(x.why);
    for (const auto* list : {&p->cautions, &p->morning}) {
      for (const auto& x : *list)
        all.push_back(x.why);
    }
    for (const rule_ref& ref : all) {
      INFO(p->id << " " << ref.rule);
      REQUIRE(find_source(*p, ref.source) != nullptr);
      CHECK_FALSE(find_source(*p, ref.source)->basis.empty());
    }
  }
}

TEST_CASE("a protocol with a wrong value is refused with line and field") {
  CHECK(protocol_said("\"dose_g\": 10", "\"dose_g\": 0") ==
        "line 126: sugar.dose_g: found 0, expected a whole number from 1 to 1000");
  CHECK(says(protocol_said("\"dose_g\": 10,", ""), "sugar.dose_g: found nothing"));
  CHECK(says(protocol_said("\"dose_g\": 10", "\"dose_g\": 10, \"dose_mg\": 1"),
             "sugar.dose_mg: found a field that is not known here"));
  CHECK(says(protocol_said("\"form\": \"syrup\"", "\"form\": \"tablet\""),
             "sugar.forms[0].form: found \"tablet\", expected one of: powder, syrup"));
  CHECK(says(protocol_said("\"quarterbreath-protocol\"", "\"quarterbreath-profile\""),
             "format: found \"quarterbreath-profile\", expected one of: quarterbreath-protocol"));
  CHECK(says(protocol_said("\"version\": 2", "\"version\": 3"),
             "found version 3, expected version 2 (a newer program reads this file)"));
  CHECK(says(protocol_said("\"id\": \"lactulose-10g\"", "\"id\": \"Lactulose 10g\""),
             "expected 1 to 40 lower-case letters, digits and inner hyphens"));
}

TEST_CASE("sampling times must rise from 0, and there are 2 to 24 of them") {
  CHECK(says(protocol_said("      0,\n      15,", "      5,\n      15,"),
             "grid.offsets_min: found 5, expected minutes that rise from 0"));
  CHECK(says(protocol_said("      15,\n      30,", "      30,\n      30,"),
             "found 30, expected minutes that rise from 0"));
  std::string many = "0";
  for (int i = 1; i < 25; ++i)
    many += "," + std::to_string(i);
  const std::string old = "      0,\n      15,\n      30,\n      45,\n      60,\n      75,\n"
                          "      90,\n      105,\n      120,\n      135";
  CHECK(says(protocol_said(old, many), "found 25 items, expected a list of 2 to 24 whole numbers"));
  // 24 of them are fine; it is then the kit that has too few tubes.
  CHECK(says(protocol_said(old, many.substr(0, many.rfind(','))),
             "kit.tubes: found 10, expected at least one tube a sample"));
  CHECK(says(protocol_said(old, "0"), "found 1 items"));
}

TEST_CASE("a rule id stands once, and its source must be listed") {
  CHECK(says(protocol_said("\"rule\": \"awake\"", "\"rule\": \"fast\""),
             "found \"fast\" twice, expected each rule id once in a file"));
  CHECK(says(protocol_said("\"source\": \"nhs-8611\"", "\"source\": \"nhs-9999\""),
             "found \"nhs-9999\", expected the id of a source listed in \"sources\""));
  CHECK(says(protocol_said("\"least_source\": \"nac-2017-t1\"", "\"least_source\": \"nobody\""),
             "preparation.windows[1].least_source"));
  CHECK(says(protocol_said("\"id\": \"nac-2017-doses\"", "\"id\": \"nac-2017-t1\""),
             "sources[1].id: found \"nac-2017-t1\" twice, expected each source once"));
  CHECK(says(protocol_said("\"id\": \"pain\"", "\"id\": \"bloating\""),
             "symptoms.asked[1].id: found \"bloating\" twice, expected each symptom once"));
}

TEST_CASE("a window must end after it begins, and its least cannot be longer than itself") {
  CHECK(says(protocol_said("\"until_min\": 720", "\"until_min\": 1440"),
             "preparation.windows[0].until_min: found 1440, expected fewer minutes than from_min"));
  CHECK(says(protocol_said("\"least_min\": 480", "\"least_min\": 721"),
             "found 721, expected no more than the window is long"));
  CHECK(says(protocol_said("\"most_s\": 5", "\"most_s\": 2"),
             "breath.most_s: found 2, expected at least least_s"));
}

TEST_CASE("the invented laboratory's profile has a source for each choice") {
  const lab_profile& l = fenwick();
  CHECK(l.id == "fenwick-vale");
  CHECK(l.kit_letters == "FV");
  CHECK(std::string(time_zero_text(l.zero)) == "tube 1 closed");
  CHECK(std::string(time_zero_text(time_zero::drink_start)) == "start of the drink");
  CHECK(std::string(time_zero_text(time_zero::drink_end)) == "end of the drink");
  // Only fictional telephone numbers are shipped (01632 is set aside for that).
  CHECK(l.telephone.rfind("01632 960", 0) == 0);
  for (const rule_ref* ref : {&l.time_zero_why, &l.bounds_why, &l.drink_why, &l.slack_why,
                              &l.water_why, &l.analysis_why}) {
    CHECK_FALSE(ref->rule.empty());
    CHECK(std::any_of(l.sources.begin(), l.sources.end(),
                      [&](const source& s) { return s.id == ref->source; }));
  }
}

TEST_CASE("a tube's bounds leave the next tube alone") {
  // A last call later than the next tube's due time would let one breath be two samples.
  for (const std::string& id : shipped_ids()) {
    const protocol& p = shipped(id);
    const sample_bounds& bounds = p.bounds ? *p.bounds : fenwick().bounds;
    for (std::size_t i = 1; i < p.samples(); ++i)
      CHECK(bounds.last_call + bounds.early < p.offsets[i] - p.offsets[i - 1]);
  }
}

TEST_CASE("a profile with a wrong value is refused with line and field") {
  CHECK(says(profile_said("\"early_s\": 30", "\"early_s\": -1"),
             "sample_bounds.early_s: found -1, expected a whole number from 0 to 3600"));
  CHECK(says(profile_said("\"value\": \"tube-1-closed\"", "\"value\": \"now\""),
             "expected one of: tube-1-closed, drink-start, drink-end"));
  CHECK(says(profile_said("\"value\": \"sips\"", "\"value\": \"much\""),
             "expected one of: none, sips, free"));
  CHECK(says(profile_said("      4,\n      5", "      4,\n      4"),
             "analysis.working_days: found the same day twice, expected each day once"));
  CHECK(says(profile_said("      4,\n      5", "      4,\n      8"),
             "found 8, expected a whole number from 1 to 7"));
  CHECK(says(profile_said("\"minutes\": 3", "\"minutes\": \"3\""), "window_slack.minutes"));
  CHECK(says(profile_said("\"minutes\": 3", "\"minutes\": -1"),
             "window_slack.minutes: found -1, expected a whole number from 0 to 30"));
  CHECK(profile_said("\"minutes\": 3", "\"minutes\": 0").empty());
  CHECK(says(profile_said("\"version\": 2", "\"version\": 9"), "found version 9"));
  CHECK(read_profile("[]").error().expected == "an object");
}

TEST_CASE("a file with every field taken out in turn is refused, never half read") {
  // The one field that may be left out, a protocol's own bounds, is not in this file.
  const json::value whole = json::parse(lactulose_text()).value();
  for (const json::member& gone : *whole.members()) {
    json::object rest;
    for (const json::member& m : *whole.members()) {
      if (m.first != gone.first) rest.push_back(m);
    }
    const auto read = read_protocol(json::canonical(rest));
    REQUIRE_FALSE(read.has_value());
    CHECK(read.error().kind == refusal_kind::missing);
    CHECK(says(read.error().where, gone.first));
  }
}

TEST_CASE("a sample's number is 1 to 24 and counts from 1 while its place counts from 0") {
  CHECK(sample_number::in_range(1));
  CHECK(sample_number::in_range(24));
  CHECK_FALSE(sample_number::in_range(0));
  CHECK_FALSE(sample_number::in_range(25));
  CHECK(sample_number(1).index() == 0);
  CHECK(sample_number::from_index(9).value() == 10);
  CHECK(sample_number(2) < sample_number(10));
}
