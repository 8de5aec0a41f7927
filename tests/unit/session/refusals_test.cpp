// Every refusal of a command, by its key: the window words them by key, so each must be reachable
// and each must be the right one.
#include "core/session/limits.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const sample_number one(1);
const sample_number two(2);

// So many characters of an alphabet whose letters take four bytes each.
std::string of_four_bytes(std::size_t characters) {
  std::string out;
  for (std::size_t i = 0; i < characters; ++i)
    out += "\xF0\x90\x8C\xB0";
  return out;
}

} // namespace

TEST_CASE("nothing is recorded before the test is opened, and it is opened once") {
  patient p;
  CHECK(p.refused(invented_person()) == "no.not-open");
  CHECK(p.refused(reported_comment{"x"}) == "no.not-open");
  CHECK(p.refused(reported_unwell{}) == "no.not-open");
  CHECK(p.refused(resumed{}) == "no.not-open");
  CHECK(p.refused(clock_changed{}) == "no.not-open");
  CHECK(p.refused(exported{}) == "no.plan-first");
  CHECK_FALSE(p.tell(opened{"x", "y", false, std::string("{}")})); // a profile that cannot be read
  CHECK(p.keeper.kept.empty());
  REQUIRE(p.tell(opened{"x", "y", false, fenwick_text()}));
  CHECK(p.refused(opened{"x", "y", false, fenwick_text()}) == "no.opened");
  CHECK(p.refused(plan_of(utc("2027-04-06T06:30:00Z"))) == "no.who-first");
}

TEST_CASE("a test needs a name and a kit number, and a birth date that exists") {
  patient p;
  REQUIRE(p.tell(opened{"x", "y", false, fenwick_text()}));
  reported_person who = invented_person();
  who.name.clear();
  CHECK(p.refused(who) == "no.empty");
  who = invented_person();
  who.kit_number.clear();
  CHECK(p.refused(who) == "no.empty");
  who = invented_person();
  who.name = std::string(501, 'x');
  CHECK(p.refused(who) == "no.too-long");
  who = invented_person();
  who.birth_date = civil_date{std::chrono::year{1957}, std::chrono::month(2), std::chrono::day(30)};
  CHECK(p.refused(who) == "no.birth-date");
  who.birth_date = civil_date{std::chrono::year{0}, std::chrono::month(2), std::chrono::day(3)};
  CHECK(p.refused(who) == "no.birth-date");
  who = invented_person();
  who.kit_number = std::string(65, 'F');
  CHECK(p.refused(who) == "no.kit-long"); // the result by code carries no more
  who.kit_number = std::string(64, 'F');
  CHECK(p.refused(who) == "");
  who = invented_person();
  who.doctor.clear();
  CHECK(p.refused(who) == "");
}

TEST_CASE("a limit counts characters, so that every alphabet has as many of them") {
  patient p;
  p.through_the_drink();
  // All that a line on the screen takes, and all that the record reads.
  for (const std::size_t length : {longest_comment, most_words}) {
    const std::string words = of_four_bytes(length);
    CHECK(p.refused(reported_comment{words}) == "");
    CHECK(p.refused(reported_slip{words, p.clock.wall(), how_known::told, words}) == "");
  }
}

TEST_CASE("what could not be read back from the record does not get into it") {
  // A row that the strict reader refuses would lock the person out of the whole test.
  patient p;
  p.through_the_drink();
  CHECK(p.refused(reported_comment{"two\nlines"}) == "no.one-line");
  CHECK(p.refused(reported_comment{"a\ttab"}) == "no.one-line");
  CHECK(p.refused(reported_comment{"half a letter \xC3"}) == "no.one-line");
  CHECK(p.refused(reported_comment{""}) == "no.empty");
  CHECK(p.refused(reported_comment{of_four_bytes(most_words + 1)}) == "no.too-long");
  CHECK(p.refused(reported_symptoms{one, {}, "two\nlines"}) == "no.one-line");
  CHECK(p.refused(repeat_wanted{one, "two\nlines"}) == "no.repeat-late");
  CHECK(p.refused(reported_slip{"", p.clock.wall(), how_known::told, ""}) == "no.empty");
  CHECK(p.refused(reported_checklist{"", {}}) == "no.empty");
  CHECK(p.refused(reported_checklist{"evening", {""}}) == "no.empty");
  CHECK(p.refused(reported_checklist{"evening", std::vector<std::string>(65, "x")}) ==
        "no.too-long");
  CHECK(p.refused(test_ended{"two\nlines"}) == "no.one-line");
  CHECK(p.refused(reported_comment{"\"quotes\", \\ and \xC3\xA9"}) == "");
}

TEST_CASE("the plan cannot be changed once tube 1 is closed") {
  patient p;
  CHECK(p.refused(breath_begun{one}) == "no.plan-first");
  p.open_and_plan();
  REQUIRE(p.tell(plan_of(utc("2027-04-07T06:30:00Z"))));
  CHECK(p.current().earlier_plans.size() == 1);
  REQUIRE(p.tell(plan_of(utc("2027-04-06T06:30:00Z"))));
  p.pass_the_gate();
  p.score(1);
  p.breathe(1);
  CHECK(p.refused(plan_of(utc("2027-04-07T06:30:00Z"))) == "no.started");
  // The gate may be passed again until the drink: something told meanwhile can ask for it.
  p.label(1);
  REQUIRE(p.tell(drink_started{}));
  CHECK(p.refused(reported_ready{gate_checks()}) == "no.started");
}

TEST_CASE("a test whose samples lie nearer than the laboratory's bounds allow is not planned") {
  patient p;
  REQUIRE(p.tell(opened{"t", "quarterbreath 0.1.0", false, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  plan_made wanted = plan_of(utc("2027-04-06T06:30:00Z"));
  const std::string grid = "\"offsets_min\":[0,15,";
  std::string text = wanted.protocol_text.string();
  const auto at = text.find(grid);
  REQUIRE(at != std::string::npos);
  wanted.protocol_text = text.replace(at, grid.size(), "\"offsets_min\":[0,1,");
  const auto near = read_protocol(wanted.protocol_text);
  REQUIRE(near.has_value());
  wanted.what = make_plan(*near, wanted.what.start, zone_named("Europe/London")).value();
  CHECK(p.refused(wanted) == "no.grid-fits");
  CHECK(p.refused(plan_of(utc("2027-04-06T06:30:00Z"))).empty());
}

TEST_CASE("moving the start before the test undoes the gate") {
  patient p;
  p.open_and_plan();
  p.pass_the_gate();
  REQUIRE(p.tell(plan_of(utc("2027-04-07T06:30:00Z"))));
  CHECK_FALSE(p.current().ready.has_value());
  CHECK_FALSE(p.current().sugar.has_value());
  CHECK(p.now().what == step::prepare);
}

TEST_CASE("the gate wants every line") {
  patient p;
  p.open_and_plan();
  for (std::size_t i = 0; i < gate_checks().size(); ++i) {
    auto checks = gate_checks();
    checks.erase(checks.begin() + static_cast<std::ptrdiff_t>(i));
    CHECK(p.refused(reported_ready{checks}) == "no.gate");
  }
}

TEST_CASE("tubes have the numbers of the protocol and no others") {
  patient p;
  p.through_the_drink();
  for (const int n : {11, 24}) {
    const sample_number none(n);
    CHECK(p.refused(breath_begun{none}) == "no.no-such-tube");
    CHECK(p.refused(tube_closed{none}) == "no.no-such-tube");
    CHECK(p.refused(reported_breath{none, p.clock.wall(), how_known::told}) == "no.no-such-tube");
    CHECK(p.refused(repeat_wanted{none, ""}) == "no.no-such-tube");
    CHECK(p.refused(label_written{none}) == "no.no-such-tube");
    CHECK(p.refused(reported_symptoms{none, {}, ""}) == "no.no-such-tube");
  }
}

TEST_CASE("a breath is begun once, for the tube whose time it is") {
  patient p;
  p.open_and_plan();
  p.pass_the_gate();
  CHECK(p.refused(breath_begun{two}) == "no.tube-1-first");
  CHECK(p.refused(reported_breath{two, p.clock.wall(), how_known::told}) == "no.tube-1-first");
  CHECK(p.refused(tube_closed{one}) == "no.no-breath");
  CHECK(p.refused(breath_abandoned{one, ""}) == "no.no-breath");
  REQUIRE(p.tell(breath_begun{one}));
  CHECK(p.refused(breath_begun{one}) == "no.breath-running");
  CHECK(p.refused(tube_closed{two}) == "no.no-breath");
  CHECK(p.refused(breath_abandoned{two, ""}) == "no.no-breath");
  p.clock.pass(10s);
  REQUIRE(p.tell(tube_closed{one}));
  CHECK(p.refused(breath_begun{one}) == "no.taken");
  CHECK(p.refused(label_written{two}) == "no.not-taken");
  CHECK(p.refused(repeat_wanted{two, ""}) == "no.not-taken");
}

TEST_CASE("a time that is still to come is not believed") {
  patient p;
  p.through_the_drink();
  const instant soon = p.clock.wall() + 1min;
  CHECK(p.refused(reported_slip{"fast", soon, how_known::told, ""}) == "no.future");
  CHECK(p.refused(reported_breath{two, soon, how_known::told}) == "no.future");
  CHECK(p.refused(reported_breath{two, p.current().grid->anchor.wall, how_known::told}) ==
        "no.before-tube-1");
}

TEST_CASE("a score is within the protocol's scale, or skipped, and only of what is asked") {
  patient p;
  p.open_and_plan();
  const auto told = [&](const char* id, std::optional<int> score) {
    return p.refused(reported_symptoms{one, {{id, score}}, ""});
  };
  CHECK(told("bloating", 11) == "no.score");
  CHECK(told("bloating", -1) == "no.score");
  CHECK(told("headache", 3) == "no.symptom");
  CHECK(told("bloating", 0) == "");
  CHECK(told("bloating", 10) == "");
  CHECK(told("bloating", std::nullopt) == "");
  CHECK_FALSE(p.tube(1).symptoms->scores[0].score.has_value());
  CHECK(p.tube(1).symptom_events.size() == 3);
}

TEST_CASE("the drink is started once and finished once") {
  patient p;
  p.through_tube_1();
  CHECK(p.refused(drink_ended{}) == "no.drink-not-started");
  REQUIRE(p.tell(repeat_wanted{one, ""}));
  REQUIRE(p.tell(breath_begun{one}));
  CHECK(p.refused(drink_started{}) == "no.breath-running");
  CHECK(p.refused(repeat_wanted{one, ""}) == "no.breath-running");
  p.clock.pass(10s);
  REQUIRE(p.tell(tube_closed{one}));
  REQUIRE(p.tell(drink_started{}));
  CHECK(p.refused(drink_started{}) == "no.drink-started");
  REQUIRE(p.tell(drink_ended{false}));
  CHECK_FALSE(p.current().drank_all);
  REQUIRE(p.tell(drink_ended{true})); // pressed too soon: told again, and the latest counts
  CHECK(p.current().drank_all);
  p.clock.pass(15min);
  p.breathe(2);
  CHECK(p.refused(drink_ended{}) == "no.drink-ended");
}

TEST_CASE("going on needs something to go on from") {
  patient p;
  p.open_and_plan();
  CHECK(p.refused(unwell_over{}) == "no.not-unwell");
}

TEST_CASE("every refusal carries a sentence a person can read") {
  patient p;
  REQUIRE_FALSE(p.tell(invented_person()));
  CHECK(p.no.kind == refusal_kind::not_now);
  CHECK(p.no.expected == "Open the test first.");
  CHECK(p.no.file.empty());
}
