// The scripted patients of demo-data, played through the real engine: each shows what its title
// says, and the same script gives the same bytes.
#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "app/rehearsal/rehearsal_run.hpp"
#include "core/findings/findings.hpp"
#include "core/record/log.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::rehearsal;
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

// What playing it came to; `out` is filled where it ended well.
result<void> try_script(const std::string& text, played& out) {
  const rehearsal_script script = read_script(text).value();
  const std::string assets = repository() + "/assets";
  auto test = load_protocol(assets, script.protocol_id).value();
  const auto profile = load_profile(assets, script.profile_id).value();
  const rehearsal_parts parts{test.canonical_text, profile.canonical_text, test.value,
                              load_zone(script.zone_name).value(), "quarterbreath 0.1.0"};
  memory_keeper keeper;
  engine e(keeper, {});
  const auto done = play(script, parts, e, [&](const engine& running) {
    out.confirmed.push_back(running.current().seq);
  });
  if (!done) return done;
  out.s = e.current();
  out.events = e.events();
  out.log = write_log(out.events, parts.program, "");
  return {};
}

played play_script(const std::string& text) {
  played out;
  if (const auto done = try_script(text, out); !done) FAIL(sentence(done.error()));
  return out;
}

std::vector<std::string> told(const played& p) {
  std::vector<std::string> out;
  for (const finding& f : findings_of(p.s, *p.s.last_reading, zone_named("Europe/London")))
    out.push_back(f.words);
  return out;
}

const std::vector<std::string> all_scripts{"ask-first",
                                           "called-off-and-planned-again",
                                           "clean",
                                           "clock-change-night",
                                           "drank-first",
                                           "drink-spilled",
                                           "food-in-the-fast",
                                           "lactose-seven-tubes",
                                           "late-and-missed",
                                           "moved",
                                           "power-cut",
                                           "put-right",
                                           "repeat-and-clock",
                                           "room-air",
                                           "scored-by-another",
                                           "too-early",
                                           "too-late",
                                           "unwell",
                                           "warning-signs"};

// The events of that kind, in order.
template <typename Kind>
std::vector<Kind> all_of(const played& p) {
  std::vector<Kind> out;
  for (const event& e : p.events) {
    if (const auto* one = std::get_if<Kind>(&e.what)) out.push_back(*one);
  }
  return out;
}

bool any_has(const std::vector<std::string>& words, const std::string& piece) {
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string& one) { return one.find(piece) != std::string::npos; });
}

} // namespace

TEST_CASE(
    "a script that misses the first tube is refused in words, since nothing goes on from there") {
  std::string text = script_file("late-and-missed");
  const std::string seven = "\"miss\",\n      \"sample\": 7";
  text.replace(text.find(seven), seven.size(), "\"miss\", \"sample\": 1");
  played none;
  const auto done = try_script(text, none);
  REQUIRE_FALSE(done);
  CHECK(done.error().where == "does");
  CHECK(done.error().found == "sample 1 missed, before the drink");
}

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

TEST_CASE("room air is told and blown again, something else is told alone") {
  const played p = play_script(script_file("room-air"));
  REQUIRE(all_of<reported_spoil>(p).size() == 2);
  REQUIRE(all_of<repeat_wanted>(p).size() == 1);
  CHECK(all_of<repeat_wanted>(p).front().sample == sample_number(4));
  CHECK(p.s.of(sample_number(4)).earlier.size() == 1);
  CHECK(p.s.of(sample_number(7)).earlier.empty());
}

TEST_CASE("the repeated tube keeps its number and the set clock does not move the grid") {
  const played p = play_script(script_file("repeat-and-clock"));
  CHECK(p.s.of(sample_number(3)).earlier.size() == 1);
  REQUIRE(p.s.clock_changes.size() == 1);
  CHECK(p.s.clock_changes[0].what.by == duration{1h});
  CHECK(timing_of(p.s, sample_number(7)) == timing::on_time);
  CHECK(timing_of(p.s, sample_number(10)) == timing::on_time);
}

TEST_CASE("food told during the fast is in the record, with its own words and what is left of it") {
  const played p = play_script(script_file("food-in-the-fast"));
  CHECK(any_has(told(p), "two biscuits"));
  CHECK(any_has(told(p), "9 h 20 min of 12 h"));
  CHECK(all_of<reported_ready>(p).front().not_kept == std::vector<std::string>{"fast"});
}

TEST_CASE("before the plan every question is answered, on the morning those of the morning") {
  const played p = play_script(script_file("clean"));
  CHECK(all_of<reported_caution>(p).size() ==
        lactulose().cautions.size() + lactulose().morning.size());
  CHECK(all_of<reported_washout>(p).size() == lactulose().washouts.size());
  for (const reported_caution& told_one : all_of<reported_caution>(p))
    CHECK(told_one.answer == caution_answer::no);
  for (const caution& c : lactulose().cautions)
    CHECK(find_noted_caution(p.s, c.why.rule)->at.wall < p.s.planned_at->at.wall);
  for (const caution& c : lactulose().morning)
    CHECK(find_noted_caution(p.s, c.why.rule)->at.wall == p.s.ready->at.wall);
}

TEST_CASE("a lactose test is planned by its kit code and takes seven of ten tubes") {
  const played p = play_script(script_file("lactose-seven-tubes"));
  REQUIRE(p.s.kit.has_value());
  CHECK(p.s.kit->protocol_id == "lactose-25g");
  CHECK(p.s.kit->kit_number == "FV-2C7H");
  REQUIRE(p.s.samples.size() == 7);
  CHECK(p.s.test->tubes_in_kit == 10);
  for (std::size_t i = 0; i < 7; ++i)
    CHECK(timing_of(p.s, sample_number::from_index(i)) == timing::on_time);
  CHECK(told(p) == std::vector<std::string>{"this is a rehearsal"});
}

TEST_CASE("a lactose test is scored once more after the last tube and six hours after the drink") {
  const played p = play_script(script_file("lactose-seven-tubes"));
  const scores_after& first = p.s.of(score_time::after_last);
  const scores_after& later = p.s.of(score_time::later);
  REQUIRE(first.given());
  REQUIRE(later.given());
  CHECK(first.told->scores.front().score == 3);
  CHECK(later.told->scores.front().score == 6);
  CHECK(first.at->wall - p.s.grid->anchor.wall == 210min + 5s); // and the person's reaction
  CHECK(later.at->wall - p.s.drink_start->at.wall == 360min + 5s);
  CHECK(later.red_flags.has_value()); // six points above the first score
}

TEST_CASE("with diabetes the nurse is asked, and what she said stands beside the question") {
  const played p = play_script(script_file("ask-first"));
  const noted_caution* told_one = find_noted_caution(p.s, "ask-diabetes");
  REQUIRE(told_one != nullptr);
  CHECK(told_one->seqs.size() == 2); // the question first, the answer of whoever was asked later
  CHECK(told_one->what.outcome == asked_outcome::go_on);
  CHECK(any_has(told(p), "said my diabetes nurse"));
}

TEST_CASE("a moved test keeps its first start, and its fast was confirmed as it began") {
  const played p = play_script(script_file("moved"));
  REQUIRE(p.s.earlier_plans.size() == 1);
  CHECK_FALSE(p.s.earlier_plans[0].called_off);
  CHECK(p.s.earlier_plans[0].what.what.start == utc("2027-04-06T06:30:00Z"));
  CHECK(p.s.planned->what.start == utc("2027-04-09T07:00:00Z"));
  REQUIRE(p.s.checklists.size() == 2);
  CHECK(p.s.checklists[1].what.name == "fast");
  CHECK(p.s.checklists[1].at.wall == utc("2027-04-08T19:00:00Z"));
  CHECK(find_noted_washout(p.s, "antibiotics")->what.what.on == parse_date("2027-03-10").value());
}

TEST_CASE("a test called off with a cold is planned again and done") {
  const played p = play_script(script_file("called-off-and-planned-again"));
  REQUIRE(p.s.earlier_plans.size() == 1);
  CHECK(p.s.earlier_plans[0].called_off);
  CHECK(p.s.earlier_plans[0].reason == "a cold with fever");
  CHECK(p.s.planned->what.start == utc("2027-04-20T06:45:00Z"));
  CHECK(p.s.of(sample_number(7)).taken.has_value());
}

TEST_CASE("a test called off for good ends the script, with its history in the log") {
  std::string text = script_file("called-off-and-planned-again");
  const auto from = text.find("    {\n      \"do\": \"move\"");
  REQUIRE(from != std::string::npos);
  text.erase(text.rfind(',', from), text.rfind(']') - text.rfind(',', from));
  const played p = play_script(text);
  CHECK_FALSE(p.s.planned.has_value());
  CHECK_FALSE(p.s.grid.has_value());
  CHECK(p.s.earlier_plans.size() == 1);
  CHECK(read_log(p.log).value().mismatches.empty());
}

TEST_CASE("on the night the clocks go back the tubes stay a quarter of an hour apart") {
  const played p = play_script(script_file("clock-change-night"));
  CHECK(p.s.grid->anchor.wall >= utc("2027-10-31T00:30:00Z"));
  CHECK(p.s.grid->anchor.offset == 1h);
  const sample_state& last = p.s.of(sample_number(10));
  CHECK(last.taken->since_anchor >= 135min);
  CHECK(last.taken->since_anchor < 136min);
  CHECK(last.taken->offset == 0h); // its label shows the hour that came twice
  // Twelve elapsed hours of fast: water only from 13:30 by the clock of the day before.
  for (const planned_window& w : p.s.planned->what.windows) {
    if (w.rule == "fast") CHECK(w.from == utc("2027-10-30T12:30:00Z"));
  }
}

TEST_CASE("a start forty minutes early keeps less than asked and no less than the least") {
  const played p = play_script(script_file("too-early"));
  const reported_ready ready = all_of<reported_ready>(p).front();
  CHECK(ready.not_kept == std::vector<std::string>{"fast", "smoke-free", "awake"});
  CHECK(any_has(told(p), "instead of 12 h"));
  CHECK(p.s.grid->anchor.wall < utc("2027-04-06T05:51:00Z"));
}

TEST_CASE("two hours and a half late is told by the start itself, and every tube follows it") {
  const played p = play_script(script_file("too-late"));
  CHECK(all_of<reported_ready>(p).front().not_kept.empty());
  CHECK(p.s.grid->anchor.wall >= utc("2027-04-06T08:59:00Z")); // 10:00 by the clock, less presses
  CHECK(p.s.planned->what.start == utc("2027-04-06T06:30:00Z"));
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
  CHECK(all_of<reported_ready>(p).front().not_kept.empty());
  CHECK(told(p).front() == "this is a rehearsal");
  CHECK_FALSE(any_has(told(p), "instead of"));
}
