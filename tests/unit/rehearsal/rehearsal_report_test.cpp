// Scripted patients to whom something happens during the test, and what they tell of it afterwards.
#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "app/rehearsal/rehearsal_run.hpp"
#include "core/findings/findings.hpp"
#include "core/sheet/sheet.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::rehearsal;
using namespace qb::test;

namespace {

std::string script_of(const std::string& name) {
  return source_file("demo-data/rehearsals/" + name + ".json");
}

result<state> play_text(const std::string& text) {
  const auto script = read_script(text);
  if (!script) return tl::unexpected(script.error());
  const std::string assets = repository() + "/assets";
  auto test = load_protocol(assets, script->protocol_id).value();
  const auto profile = load_profile(assets, script->profile_id).value();
  const rehearsal_parts parts{test.canonical_text, profile.canonical_text, test.value,
                              load_zone(script->zone_name).value(), "quarterbreath 0.1.0"};
  memory_keeper keeper;
  engine e(keeper, {});
  const auto done = play(*script, parts, e, [](const engine&) {});
  if (!done) return tl::unexpected(done.error());
  return e.current();
}

state played(const std::string& name) {
  const auto s = play_text(script_of(name));
  if (!s) FAIL(sentence(s.error()));
  return *s;
}

bool is_answered(const state& s, const std::string& words) {
  const auto all = findings_of(s, *s.last_reading, zone_named("Europe/London"));
  return std::any_of(all.begin(), all.end(), [&](const finding& f) { return f.words == words; });
}

std::string with_deed(const std::string& deed) {
  std::string text = script_of("clean");
  const auto at = text.find("\"does\": []");
  return text.replace(at, 10, "\"does\": [" + deed + "]");
}

} // namespace

TEST_CASE("who drank first has no tube 1, and nine tubes count from the first sip") {
  const state s = played("drank-first");
  CHECK_FALSE(s.of(sample_number(1)).taken.has_value());
  REQUIRE(s.grid.has_value());
  CHECK(s.grid->from_drink);
  for (int n = 2; n <= 10; ++n) {
    const auto late = lateness(s, sample_number(n));
    CHECK((late >= duration{0} && late < std::chrono::minutes{1}));
  }
}

TEST_CASE("a drink told late, spilled, slow and not kept is told with how much stayed each time") {
  const state s = played("drink-spilled");
  CHECK(s.drink_start_how == how_known::told);
  REQUIRE(s.drink_troubles.size() == 3);
  CHECK(s.drink_troubles[0].what.what == drink_mishap::spilled);
  CHECK(s.drink_troubles[0].what.kept == drink_part::more_than_half);
  CHECK(s.drink_troubles[2].what.what == drink_mishap::vomited);
  CHECK(s.drink_troubles[2].what.kept == drink_part::less_than_half);
}

TEST_CASE("what is put right in a script stands right, with both values told") {
  const state s = played("put-right");
  CHECK(
      is_answered(s, "time of tube 3 corrected from 08:00 to 07:58: I read it off another clock"));
  CHECK(is_answered(s, "tubes 6 and 5 were swapped: I mixed things up"));
  CHECK(s.of(sample_number(5)).taken->closed > s.of(sample_number(6)).taken->closed);
  CHECK(s.of(sample_number(7)).taken.has_value()); // blown when its breath had gone into tube 8
  CHECK(s.of(sample_number(8)).earlier.size() == 1);
  const auto& pain = s.of(sample_number(2)).symptoms->scores;
  CHECK(std::any_of(pain.begin(), pain.end(),
                    [](const symptom_score& x) { return x.id == "pain" && x.score == 3; }));
  // A corrected tube 1 moves nothing: tube 9 is on time by what was pressed.
  CHECK(lateness(s, sample_number(9)) < std::chrono::minutes{1});
}

TEST_CASE("who gives the marks is told from the tube on at which it changed") {
  const state s = played("scored-by-another");
  CHECK(s.of(sample_number(2)).scored_by->self);
  CHECK_FALSE(s.of(sample_number(3)).scored_by->self);
  CHECK(is_answered(s, "symptoms at tube 3 scored by somebody for the person (my daughter)"));
}

TEST_CASE("warning signs are asked at a marked rise, and the test may end there") {
  const state s = played("warning-signs");
  CHECK(s.of(sample_number(4)).red_flags.has_value()); // five above the first
  CHECK(s.of(sample_number(6)).red_flags->present == std::vector<std::string>{"vomiting"});
  CHECK(is_answered(s, "warning signs told at tube 6: vomiting"));
  CHECK(s.ended.has_value());
}

TEST_CASE("a script that puts right what is not there is refused by its tube") {
  const auto early = play_text(
      with_deed(R"({"do":"correct-time","after_sample":2,"sample":5,"by_min":1,"reason":"x"})"));
  REQUIRE_FALSE(early.has_value());
  CHECK(early.error().found == "tube 5");
  CHECK(early.error().expected == "a tube that is closed by then");
  const auto beyond = play_text(with_deed(R"({"do":"correct-score","after_sample":2,"sample":11,)"
                                          R"("symptom":"pain","score":1,"reason":"x"})"));
  REQUIRE_FALSE(beyond.has_value());
  CHECK(beyond.error().expected == "a tube of this test");
}

TEST_CASE("a telling that is not in its form is refused with its field") {
  const auto said = [](const std::string& deed) {
    const auto read = read_script(with_deed(deed));
    return read ? std::string() : sentence(read.error());
  };
  CHECK(said(R"({"do":"trouble","after_sample":1,"what":"lost","ago_min":1,"kept":"all"})")
            .find("does[0].what: found \"lost\"") != std::string::npos);
  CHECK(said(R"({"do":"correct-tube","after_sample":2,"sample":2,"reason":"x"})")
            .find("does[0].really: found nothing") != std::string::npos);
  CHECK(said(R"({"do":"scorer","after_sample":2,"self":"yes"})").find("does[0].self") !=
        std::string::npos);
}
