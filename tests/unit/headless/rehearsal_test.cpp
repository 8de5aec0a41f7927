// The scripted patients of demo-data, played through the real engine: each shows what its title
// says, and the same script gives the same bytes.
#include "app/headless/assets.hpp"
#include "app/headless/rehearsal_run.hpp"
#include "app/headless/zone_files.hpp"
#include "core/findings/findings.hpp"
#include "core/record/log.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

std::string script_file(const std::string& name) {
  return source_file("demo-data/rehearsals/" + name + ".json");
}

struct played {
  state s;
  std::vector<event> events;
  std::string log;
  std::vector<std::int64_t> confirmed;
};

played play_script(const std::string& text) {
  const rehearsal_script script = read_script(text).value();
  const std::string assets = std::string(QB_SOURCE_DIR) + "/assets";
  auto test = load_protocol(assets, script.protocol_id).value();
  const auto profile = load_profile(assets, script.profile_id).value();
  const rehearsal_parts parts{test.canonical_text, profile.canonical_text, test.value,
                              load_zone(script.zone_name).value(), "quarterbreath 0.1.0"};
  memory_keeper keeper;
  engine e(keeper, {});
  played out;
  const auto done = play(script, parts, e, [&](const engine& running) {
    out.confirmed.push_back(running.current().seq);
  });
  if (!done) FAIL(sentence(done.error()));
  out.s = e.current();
  out.events = e.events();
  out.log = write_log(out.events, parts.program);
  return out;
}

std::vector<std::string> told(const played& p) {
  std::vector<std::string> out;
  for (const finding& f : findings_of(p.s, *p.s.last_reading, zone_named("Europe/London")))
    out.push_back(f.words);
  return out;
}

const std::vector<std::string> all_scripts{"clean",     "food-in-the-fast", "late-and-missed",
                                           "power-cut", "repeat-and-clock", "unwell"};

} // namespace

TEST_CASE("the same script gives the same bytes, and its log matches itself") {
  for (const std::string& name : all_scripts) {
    INFO(name);
    const played first = play_script(script_file(name));
    CHECK(play_script(script_file(name)).log == first.log);
    const auto log = read_log(first.log);
    REQUIRE(log.has_value());
    CHECK(log->mismatches.empty());
    CHECK(log->rehearsal);
    CHECK(first.s.rehearsal());
  }
}

TEST_CASE("every command of a script is confirmed, in rising order, up to the last event") {
  const played p = play_script(script_file("repeat-and-clock"));
  for (std::size_t i = 1; i < p.confirmed.size(); ++i)
    CHECK(p.confirmed[i] > p.confirmed[i - 1]);
  CHECK(p.confirmed.back() == static_cast<std::int64_t>(p.events.size()));
}

TEST_CASE("the clean test has ten tubes on time and only the mark of practice to tell") {
  const played p = play_script(script_file("clean"));
  for (std::size_t i = 0; i < 10; ++i)
    CHECK(timing_of(p.s, sample_number::from_index(i)) == timing::on_time);
  CHECK(told(p) == std::vector<std::string>{"this is a rehearsal"});
}

TEST_CASE("the late and the missed sample are tubes 4 and 7, and the others stay on time") {
  const played p = play_script(script_file("late-and-missed"));
  CHECK(timing_of(p.s, sample_number(4)) == timing::late);
  CHECK_FALSE(p.s.of(sample_number(7)).taken.has_value());
  for (const int n : {2, 3, 5, 6, 8, 9, 10})
    CHECK(timing_of(p.s, sample_number(n)) == timing::on_time);
  CHECK(p.s.of(sample_number(4)).symptoms->comment == "The telephone rang.");
  const auto words = told(p);
  CHECK(std::count(words.begin(), words.end(), "tube 7 not taken") == 1);
}

TEST_CASE("the power cut leaves all ten tubes, with the restart told") {
  const played p = play_script(script_file("power-cut"));
  CHECK(p.s.resumes.size() == 1);
  for (std::size_t i = 0; i < 10; ++i)
    CHECK(p.s.samples[i].taken.has_value());
  CHECK(p.s.of(sample_number(6)).taken->sure == certainty::by_wall);
  CHECK(p.s.of(sample_number(5)).taken->sure == certainty::exact);
}

TEST_CASE("the repeated tube keeps its number and the set clock does not move the grid") {
  const played p = play_script(script_file("repeat-and-clock"));
  CHECK(p.s.of(sample_number(3)).earlier.size() == 1);
  REQUIRE(p.s.clock_changes.size() == 1);
  CHECK(p.s.clock_changes[0].what.by == duration{1h});
  CHECK(timing_of(p.s, sample_number(7)) == timing::on_time);
  CHECK(timing_of(p.s, sample_number(10)) == timing::on_time);
}

TEST_CASE("food told during the fast is in the record, with its own words") {
  const auto words = told(play_script(script_file("food-in-the-fast")));
  CHECK(std::count(words.begin(), words.end(), "food told at Monday 22:10: two biscuits") == 1);
}

TEST_CASE("the test that was stopped has five tubes and ends") {
  const played p = play_script(script_file("unwell"));
  CHECK(p.s.ended.has_value());
  CHECK(p.s.of(sample_number(5)).taken.has_value());
  CHECK_FALSE(p.s.of(sample_number(6)).taken.has_value());
}

TEST_CASE("a start late by some hours moves the grid with it and breaks no rule") {
  std::string text = script_file("clean");
  const auto at = text.find("\"does\": []");
  REQUIRE(at != std::string::npos);
  text.replace(at, 10, "\"does\": [{\"do\":\"start\",\"by_min\":90}]");
  const played p = play_script(text);
  CHECK(p.s.grid->anchor.wall >= utc("2027-04-06T08:00:00Z"));
  CHECK(told(p) == std::vector<std::string>{"this is a rehearsal"});
}

TEST_CASE("a script that is not in its form is refused with line and field") {
  const auto said = [](const std::string& what, const std::string& by) {
    std::string text = script_file("late-and-missed");
    const auto at = text.find(what);
    REQUIRE(at != std::string::npos);
    const auto read = read_script(text.replace(at, what.size(), by));
    return read ? std::string() : sentence(read.error());
  };
  CHECK(said("\"do\": \"late\"", "\"do\": \"dance\"").find("does[0].do: found \"dance\"") !=
        std::string::npos);
  CHECK(said("\"by_s\": 310", "\"by_s\": 0").find("does[0].by_s: found 0") != std::string::npos);
  CHECK(said("\"sample\": 4,", "").find("does[0].sample: found nothing") != std::string::npos);
  CHECK(said("2027-04-06 07:30", "tomorrow").find("start: found \"tomorrow\"") !=
        std::string::npos);
  CHECK(said("1948-09-30", "1948-09-31").find("person.birth_date") != std::string::npos);
  CHECK(said("\"reaction_s\": 5", "\"reaction_s\": 0").find("reaction_s") != std::string::npos);
}

TEST_CASE("a script whose start does not exist is refused before anything is recorded") {
  std::string text = script_file("clean");
  const auto at = text.find("2027-04-06 07:30");
  text.replace(at, 16, "2027-03-28 01:30");
  const rehearsal_script script = read_script(text).value();
  const rehearsal_parts parts{lactulose_text(), fenwick_text(), lactulose(),
                              zone_named("Europe/London"), "x"};
  memory_keeper keeper;
  engine e(keeper, {});
  const auto no = play(script, parts, e, [](const engine&) {});
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().found.find("does not exist") != std::string::npos);
  CHECK(keeper.kept.empty());
}
