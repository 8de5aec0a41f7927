// Protocols and profiles of version 1 are read for ever, and mean what the program did then: old
// records have them frozen. The files are those that were shipped.
#include "core/base/json.hpp"
#include "core/protocol/profile.hpp"
#include "tests/unit/protocol/figures.hpp"

using namespace qb;
using namespace qb::test;

namespace {

std::string old_protocol(const std::string& id) {
  return source_file("tests/fixtures/protocols/version-1/" + id + ".json");
}
std::string old_profile(const std::string& id) {
  return source_file("tests/fixtures/profiles/version-1/" + id + ".json");
}

// The file with a field of its outermost object put in or taken out.
std::string with_field(const std::string& text, const std::string& key, const json::value* put) {
  json::object out;
  const json::value whole = json::parse(text).value();
  for (const json::member& m : *whole.members()) {
    if (m.first != key) out.push_back(m);
  }
  if (put != nullptr) out.emplace_back(key, *put);
  return json::canonical(out);
}

} // namespace

TEST_CASE("every protocol that was shipped as version 1 is read") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    const auto p = read_protocol(old_protocol(id));
    REQUIRE(p.has_value());
    CHECK(p->id == id);
    CHECK(p->samples() == shipped(id).samples());
  }
  CHECK(read_protocol(old_protocol("fenwick-vale-long")).has_value());
}

TEST_CASE("by silence version 1 asks somebody when unsure, on either's word") {
  const protocol p = read_protocol(old_protocol("fructose-25g")).value();
  const caution* never = find_caution(p, "no-fructose-intolerance");
  REQUIRE(never != nullptr);
  CHECK(never->leads == leads_to::not_this_test);
  CHECK(never->unsure_leads == leads_to::ask_first);
  for (const caution& c : p.cautions) {
    CHECK(c.may_release == std::vector<releaser>{releaser::doctor, releaser::laboratory});
    CHECK(c.recognise.empty());
    CHECK(c.is_not.empty());
  }
}

TEST_CASE("by silence version 1 has six warning signs, none final, and the profile's rise alone") {
  const warning_rules w = read_protocol(old_protocol("lactulose-10g")).value().warnings;
  CHECK_FALSE(w.rise.has_value());
  CHECK_FALSE(w.level.has_value());
  std::vector<std::string> ids;
  for (const warning_sign& s : w.signs) {
    ids.push_back(s.id);
    CHECK_FALSE(s.is_final);
    CHECK_FALSE(s.text.empty());
  }
  CHECK(ids == std::vector<std::string>{"pain", "fainting", "breathing", "confusion", "blood",
                                        "vomiting"});
}

TEST_CASE("by silence version 1 scores with the tubes alone, measures nothing and tells nothing") {
  const protocol p = read_protocol(old_protocol("lactulose-10g")).value();
  CHECK_FALSE(p.symptom_times.after_last.has_value());
  CHECK_FALSE(p.symptom_times.later.has_value());
  for (const sugar_form& f : p.sugar.forms)
    CHECK_FALSE(f.measure);
  CHECK(p.breath_how.empty());
  CHECK(p.expected.empty());
  CHECK(p.not_expected.empty());
  CHECK(p.afterwards.empty());
}

TEST_CASE("a protocol of version 1 has no field of version 2, and one of 2 has them all") {
  const std::string old = old_protocol("lactulose-10g");
  const json::value now = json::parse(lactulose_text()).value();
  for (const char* field :
       {"warnings", "symptom_times", "breath_how", "expected", "not_expected", "afterwards"}) {
    INFO(field);
    const auto too_much = read_protocol(with_field(old, field, now.find(field)));
    REQUIRE_FALSE(too_much.has_value());
    CHECK(too_much.error().found == "a field that is not known here");
    const auto too_little = read_protocol(with_field(lactulose_text(), field, nullptr));
    REQUIRE_FALSE(too_little.has_value());
    CHECK(too_little.error().kind == refusal_kind::missing);
  }
  const json::value two(2);
  CHECK_FALSE(read_protocol(with_field(old, "version", &two)).has_value());
}

TEST_CASE("every profile that was shipped as version 1 is read, with hours and number as text") {
  for (const char* id : {"fenwick-vale", "fenwick-vale-kiosk", "own-consequences"}) {
    INFO(id);
    const auto l = read_profile(old_profile(id));
    REQUIRE(l.has_value());
    CHECK(l->telephone_hours == "Monday to Friday, 08:30 to 16:30");
    CHECK(l->opening_hours.empty());
    CHECK(l->outside_hours.empty());
    CHECK(l->emergency == "your local emergency number");
    CHECK(l->emergency_country.empty());
    CHECK_FALSE(l->for_trying);
    CHECK(l->rise == 5);
  }
}

TEST_CASE("by silence a profile of version 1 tells no retention, and it has no field for one") {
  const std::string text = old_profile("fenwick-vale");
  CHECK_FALSE(read_profile(text).value().retention.has_value());
  const json::value told = json::object{
      {"rule", "retention"}, {"source", "laboratory-choice"}, {"years_after_conclusion", 10}};
  CHECK_FALSE(read_profile(with_field(text, "retention", &told)).has_value());
}
