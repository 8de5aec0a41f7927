// The start that went another way, tubes mixed up, times and scores put right, warning signs asked.
// Each is a fact of its own: the record keeps both, and after the drink nothing moves the grid.
#include "core/session/correct.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const sample_number one(1);
const sample_number two(2);
const sample_number three(3);

std::int64_t closing_of(const patient& p, int n) {
  return p.tube(n).taken->seq;
}

reported_symptoms scores(int n, int bloating) {
  return {sample_number(n), {{"bloating", bloating}, {"pain", 0}, {"nausea", std::nullopt}}, ""};
}

void to_the_gate_passed(patient& p) {
  p.open_and_plan();
  p.pass_the_gate();
  p.score(1);
}

} // namespace

TEST_CASE("a drink before tube 1 anchors the grid, and there is no baseline any more") {
  patient p;
  to_the_gate_passed(p);
  p.clock.pass(6min);
  const instant began = p.clock.wall() - 4min;
  REQUIRE(p.tell(reported_drink{began, how_known::told}));
  REQUIRE(p.current().grid.has_value());
  CHECK(p.current().grid->from_drink);
  CHECK(p.current().grid->anchor.wall == began);
  CHECK(p.current().drink_start->at.wall == began);
  CHECK(due_on_wall(p.current(), two, p.clock.look()) == began + 15min);
  CHECK(p.now().missed == std::vector<sample_number>{one});
  CHECK(p.refused(breath_begun{one}) == "no.missed");
  CHECK(p.now().what == step::drinking);
  REQUIRE(p.tell(drink_ended{true}));
  CHECK(p.now().sample == two);
  p.clock.step(3h); // the grid counts elapsed time from there on, as from any anchor
  p.clock.pass(1min);
  CHECK(p.current().grid->at(p.clock.look()).length == 5min);
  // A baseline that was blown before it can still be told; the grid stays.
  REQUIRE(p.tell(reported_breath{one, began + 3h - 2min, how_known::told}));
  CHECK(p.current().grid->anchor.wall == began);
  CHECK(p.tube(1).taken->since_anchor == -2min);
}

TEST_CASE("a drink that nobody pressed is told afterwards, and does not move the grid") {
  patient p;
  p.through_tube_1();
  const instant anchor = p.current().grid->anchor.wall;
  p.clock.pass(5min);
  REQUIRE(p.tell(reported_drink{p.clock.wall() - 3min, how_known::estimated}));
  CHECK(p.current().grid->anchor.wall == anchor);
  CHECK_FALSE(p.current().grid->from_drink);
  CHECK(p.current().drink_start_how == how_known::estimated);
  CHECK(between(p.current().drink_start->at, p.clock.look()).length == 3min);
  // Told once more it is taken, and the first stands.
  REQUIRE(p.tell(reported_drink{p.clock.wall(), how_known::told}));
  CHECK(p.current().drink_start_how == how_known::estimated);
}

TEST_CASE("what became of the drink is told with how much was kept and when") {
  patient p;
  p.through_tube_1();
  const reported_drink_trouble sick{drink_mishap::vomited, drink_part::less_than_half,
                                    p.clock.wall(), how_known::told, ""};
  CHECK(p.refused(sick) == "no.drink-not-started");
  REQUIRE(p.tell(drink_started{}));
  p.clock.pass(20min);
  REQUIRE(p.tell(reported_drink_trouble{drink_mishap::vomited, drink_part::less_than_half,
                                        p.clock.wall() - 2min, how_known::told, ""}));
  REQUIRE(p.current().drink_troubles.size() == 1);
  CHECK(p.current().drink_troubles[0].what.kept == drink_part::less_than_half);
  reported_drink_trouble later = sick;
  later.when = p.clock.wall() + 1ms;
  CHECK(p.refused(later) == "no.future");
}

TEST_CASE("a tube's time is put right with a reason, and both times are kept") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  const instant was = p.tube(2).taken->closed;
  const std::int64_t seq = closing_of(p, 2);
  CHECK(p.refused(corrected{seq, right_time{was - 1min, how_known::told}, ""}) == "no.empty");
  CHECK(p.refused(corrected{seq, right_time{p.clock.wall() + 1s, how_known::told}, "x"}) ==
        "no.future");
  CHECK(p.refused(corrected{1, right_time{was, how_known::told}, "x"}) == "no.nothing-to-correct");
  REQUIRE(p.tell(corrected{seq, right_time{was - 1min, how_known::told}, "another clock"}));
  CHECK(p.tube(2).taken->closed == was - 1min);
  CHECK(p.tube(2).taken->how == how_known::told);
  CHECK(lateness(p.current(), two) == 10s - 1min);
  REQUIRE(p.current().corrections.size() == 1);
  CHECK(p.current().corrections[0].time_was == was);
  CHECK(p.current().corrections[0].what.reason == "another clock");
  CHECK(p.now().what == step::label); // another time stands on it now
  // The same closing can be put right once more.
  CHECK(p.refused(corrected{seq, right_time{was, how_known::told}, "it was right"}) == "");
}

TEST_CASE("a correction of tube 1 never moves the grid") {
  patient p;
  p.through_tube_1();
  const instant anchor = p.current().grid->anchor.wall;
  const std::int64_t seq = closing_of(p, 1);
  p.clock.pass(1min);
  REQUIRE(p.tell(corrected{seq, right_time{anchor - 4min, how_known::told}, "another clock"}));
  CHECK(p.current().grid->anchor.wall == anchor);
  CHECK(p.tube(1).taken->since_anchor == -4min);
  CHECK(due_on_wall(p.current(), two, p.clock.look()) == anchor + 15min);
}

TEST_CASE("the drink's start and end are put right as times are") {
  patient p;
  p.through_the_drink();
  const noted_moment start = *p.current().drink_start;
  const noted_moment end = *p.current().drink_end;
  REQUIRE(p.tell(corrected{start.seq, right_time{start.at.wall + 20s, how_known::told}, "late"}));
  CHECK(p.current().drink_start->at.wall == start.at.wall + 20s);
  CHECK(p.current().drink_start_how == how_known::told);
  CHECK(between(p.current().drink_start->at, end.at).length ==
        between(start.at, end.at).length - 20s);
  REQUIRE(p.tell(corrected{end.seq, right_time{end.at.wall - 5s, how_known::told}, "late"}));
  CHECK(p.current().drink_end->at.wall == end.at.wall - 5s);
}

TEST_CASE("two tubes that were swapped change places with all that was told of them") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  REQUIRE(p.tell(corrected{p.tube(2).symptom_events.back(), right_score{"bloating", 7}, "slip"}));
  p.sample(3);
  const instant at_two = p.tube(2).taken->closed;
  const instant at_three = p.tube(3).taken->closed;
  REQUIRE(p.tell(corrected{closing_of(p, 2), right_tube{three}, "I mixed them up"}));
  CHECK(p.tube(3).taken->closed == at_two);
  CHECK(p.tube(2).taken->closed == at_three);
  CHECK(p.tube(3).symptoms->scores[0].score == 7);
  CHECK(p.tube(3).symptoms->sample == three);
  CHECK(p.current().corrections.back().both_blown);
  CHECK(p.refused(corrected{closing_of(p, 2), right_tube{two}, "x"}) == "no.nothing-to-correct");
}

TEST_CASE("a breath in the wrong tube: the right one is blown now, the other again at its time") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.wait_for(2);
  p.breathe(2);
  const instant blown = p.tube(2).taken->closed;
  REQUIRE(p.tell(corrected{closing_of(p, 2), right_tube{three}, "it was tube 3"}));
  CHECK_FALSE(p.tube(2).taken.has_value());
  CHECK(p.tube(3).taken->closed == blown);
  CHECK(p.now().what == step::breathe);
  CHECK(p.now().sample == two);
  p.breathe(2);
  p.label(2);
  p.score(2);
  CHECK(p.now().what == step::wait);
  CHECK(p.now().sample == three);
  CHECK(p.refused(breath_begun{three}) == "no.too-early");
  p.wait_for(3);
  CHECK(p.now().what == step::breathe);
  p.breathe(3);
  CHECK(p.tube(3).taken->closed > blown);
  REQUIRE(p.tube(3).earlier.size() == 1);
  CHECK(p.tube(3).earlier[0].closed == blown);
  CHECK(p.now().what == step::label);
}

TEST_CASE("a tube 1 blown into another tube is blown before the drink, and that is the anchor") {
  patient p;
  p.through_tube_1();
  REQUIRE(p.tell(corrected{closing_of(p, 1), right_tube{two}, "it was tube 2"}));
  CHECK(p.now().what == step::breathe);
  CHECK(p.now().sample == one);
  p.clock.pass(1min);
  p.breathe(1);
  CHECK(p.current().grid->anchor.wall == p.tube(1).taken->closed);
}

TEST_CASE("the last tube has its own last call, of the profile") {
  // The profile: last call 450 s, for the last tube 900 s.
  patient p;
  p.through_the_drink();
  p.score(1);
  for (int n = 2; n <= 9; ++n)
    p.sample(n);
  p.wait_for(10);
  CHECK(p.now().to_last_call == duration{900s});
  p.clock.pass(900s);
  CHECK(p.now().sample == sample_number(10));
  CHECK(p.now().what == step::breathe);
  p.clock.pass(1ms);
  CHECK(p.now().missed == std::vector<sample_number>{sample_number(10)});
}

TEST_CASE("two closings nearer than the profile's bound are noticed, the tube's own left out") {
  // The profile: 300 s apart.
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  const duration two_at = p.tube(2).taken->since_anchor;
  CHECK(too_close_to(p.current(), three, two_at + 300s - 1ms) == two);
  CHECK_FALSE(too_close_to(p.current(), three, two_at + 300s).has_value());
  CHECK_FALSE(too_close_to(p.current(), two, two_at + 1s).has_value());
}

TEST_CASE("the guide's end, the press and a told time are all kept") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.wait_for(2);
  const instant pressed = p.clock.wall();
  REQUIRE(p.tell(breath_begun{two}));
  p.clock.pass(500ms);
  CHECK(p.refused(tube_closed{two}) == "no.too-short"); // half a second is no breath
  p.clock.pass(17500ms);
  REQUIRE(p.tell(tube_closed{two}));
  CHECK(p.tube(2).taken->guide_end == pressed + 10s); // 5 s to put the straw in, 5 s to blow
  CHECK(p.tube(2).taken->closed == pressed + 18s);
  p.wait_for(3);
  const instant third = p.clock.wall();
  REQUIRE(p.tell(breath_begun{three}));
  p.clock.pass(6min);
  REQUIRE(p.tell(reported_breath{three, third + 12s, how_known::estimated}));
  CHECK(p.tube(3).taken->guide_end == third + 10s);
  CHECK(p.tube(3).taken->closed == third + 12s);
}

TEST_CASE("a marked rise asks the warning signs once, a smaller one does not") {
  // The profile: 5 points above the first score.
  patient p;
  p.open_and_plan();
  p.pass_the_gate();
  REQUIRE(p.tell(scores(1, 1)));
  p.breathe(1);
  p.label(1);
  REQUIRE(p.tell(drink_started{}));
  p.clock.pass(1min);
  REQUIRE(p.tell(drink_ended{}));
  p.wait_for(2);
  p.breathe(2);
  p.label(2);
  REQUIRE(p.tell(scores(2, 5)));
  CHECK(p.now().what == step::wait);
  p.wait_for(3);
  p.breathe(3);
  p.label(3);
  REQUIRE(p.tell(scores(3, 6)));
  CHECK(p.now().what == step::red_flags);
  CHECK(p.now().sample == three);
  CHECK_FALSE(p.current().unwell.has_value()); // a score alone never raises an alarm
  REQUIRE(p.tell(reported_red_flags{three, {}}));
  CHECK(p.now().what == step::wait);
  p.wait_for(4);
  p.breathe(4);
  p.label(4);
  REQUIRE(p.tell(scores(4, 6)));
  CHECK(p.now().what == step::wait); // no worse than when it was asked
  p.wait_for(5);
  p.breathe(5);
  p.label(5);
  REQUIRE(p.tell(scores(5, 7)));
  CHECK(p.now().what == step::red_flags);
}

TEST_CASE("who gave the scores is kept with them, and can change") {
  patient p;
  p.open_and_plan();
  REQUIRE(p.tell(reported_scorer{false, "my daughter"}));
  p.pass_the_gate();
  p.score(1);
  REQUIRE(p.tell(reported_scorer{true, ""}));
  CHECK(p.tube(1).scored_by->who == "my daughter");
  p.breathe(1);
  p.label(1);
  REQUIRE(p.tell(drink_started{}));
  REQUIRE(p.tell(drink_ended{}));
  p.sample(2);
  CHECK(p.tube(2).scored_by->self);
}
