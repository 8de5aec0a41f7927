// The order of a whole test, as a person who follows it meets it, and what may not be done when.
// Order and bounds are common practice and the laboratory's own profile.
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const sample_number one(1);
const sample_number two(2);
const sample_number three(3);

} // namespace

TEST_CASE("the start has an order: sugar set aside, symptoms, tube 1, label, drink") {
  // Common practice: dissolve the sugar and set it aside; score baseline symptoms; sample 1; label
  // it; drink.
  patient p;
  CHECK(p.now().what == step::who);
  p.open_and_plan();
  CHECK(p.now().what == step::prepare);
  p.clock.pass(utc("2027-04-06T05:29:59Z") - p.clock.wall());
  CHECK(p.now().what == step::prepare);
  p.clock.pass(1s); // the last hour begins at 06:30 in London
  CHECK(p.now().what == step::gate);
  CHECK(p.refused(sugar_set_aside{}) == "no.gate");
  p.clock.pass(58min);
  for (payload& told : gate_answers(p.current(), p.clock.look()))
    REQUIRE(p.tell(std::move(told)));
  CHECK(p.now().what == step::sugar);
  CHECK(p.refused(breath_begun{one}) == "no.sugar-first");
  REQUIRE(p.tell(sugar_set_aside{}));
  CHECK(p.now().what == step::symptoms);
  CHECK(p.now().sample == one);
  p.score(1);
  CHECK(p.now().what == step::breathe);
  CHECK(p.refused(drink_started{}) == "no.tube-1-first");
  p.breathe(1);
  CHECK(p.now().what == step::label);
  p.label(1);
  CHECK(p.now().what == step::drink);
  REQUIRE(p.tell(drink_started{}));
  CHECK(p.now().what == step::drinking);
  REQUIRE(p.tell(drink_ended{}));
  CHECK(p.now().what == step::wait);
  CHECK(p.now().sample == two);
}

TEST_CASE("the guided breath goes from lead-in to blowing to the closing of the tube") {
  // The profile: 5 s to put the straw in; common practice: blow 3 to 5 s.
  patient p;
  p.open_and_plan();
  p.pass_the_gate();
  p.score(1);
  REQUIRE(p.tell(breath_begun{one}));
  CHECK(p.now().what == step::lead_in);
  CHECK(p.now().phase_length == duration{5s});
  CHECK(p.now().phase_left == duration{5s});
  p.clock.pass(5s);
  CHECK(p.now().what == step::blowing);
  p.clock.pass(2999ms);
  CHECK(p.refused(tube_closed{one}) == "no.too-short");
  p.clock.pass(1ms);
  CHECK(p.now().what == step::blowing);
  p.clock.pass(2s);
  CHECK(p.now().what == step::close);
  CHECK_FALSE(p.now().phase_left.has_value());
  REQUIRE(p.tell(tube_closed{one}));
  CHECK_FALSE(p.current().breath.has_value());
}

TEST_CASE("closing a tube some seconds after its due time is not late") {
  // The profile: on time up to 120 s after.
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  p.breathe(2); // begun when due, closed 10 s later
  CHECK(lateness(p.current(), two) == 10s);
  CHECK(timing_of(p.current(), two) == timing::on_time);
  p.label(2);
  p.score(2);
  p.wait_for(3);
  p.clock.pass(110s);
  p.breathe(3);
  CHECK(timing_of(p.current(), three) == timing::on_time);
  p.label(3);
  p.score(3);
  p.wait_for(4);
  p.clock.pass(110s + 1ms);
  p.breathe(4);
  CHECK(timing_of(p.current(), sample_number(4)) == timing::late);
}

TEST_CASE("a breath may begin 30 seconds before its time and no earlier") {
  // The profile: early_s 30.
  patient p;
  p.through_the_drink();
  const duration left = 15min - p.current().grid->at(p.clock.look()).length;
  p.clock.pass(left - 30s - 1ms);
  CHECK(p.now().what == step::heads_up);
  CHECK(p.refused(breath_begun{two}) == "no.too-early");
  p.clock.pass(1ms);
  REQUIRE(p.tell(breath_begun{two}));
  p.clock.pass(8s);
  REQUIRE(p.tell(tube_closed{two}));
  CHECK(lateness(p.current(), two) == -22s);
  CHECK(timing_of(p.current(), two) == timing::on_time);
}

TEST_CASE("a late sample is taken at once and the next stays due where it was") {
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  p.clock.pass(5min);
  CHECK(p.now().what == step::breathe);
  CHECK(p.now().to_due == duration{-5min});
  p.breathe(2);
  CHECK(timing_of(p.current(), two) == timing::late);
  // Tube 3 is due 30 minutes after tube 1, not 15 after tube 2.
  CHECK(due_on_wall(p.current(), three, p.clock.look()) == p.current().grid->anchor.wall + 30min);
}

TEST_CASE("a tube counts as missed after its last call, and a breath told undoes that") {
  // The profile: last call 450 s after the due time.
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  p.clock.pass(450s);
  CHECK(p.now().sample == two);
  CHECK(p.now().missed.empty());
  p.clock.pass(1ms);
  CHECK(p.now().sample == three);
  CHECK(p.now().missed == std::vector<sample_number>{two});
  CHECK(p.refused(breath_begun{two}) == "no.missed");
  const instant really = p.current().grid->anchor.wall + 16min;
  REQUIRE(p.tell(reported_breath{two, really, how_known::told}));
  CHECK(p.now().missed.empty());
  CHECK(p.tube(2).taken->closed == really);
  CHECK(p.tube(2).taken->how == how_known::told);
  CHECK(lateness(p.current(), two) == 1min);
  CHECK(p.now().sample == two); // its label and symptoms are still wanted
  CHECK(p.now().what == step::label);
}

TEST_CASE("before the drink a repeat of tube 1 moves the grid, after it nothing does") {
  patient p;
  p.through_tube_1();
  const instant first = p.current().grid->anchor.wall;
  REQUIRE(p.tell(repeat_wanted{one, "the lid was open"}));
  CHECK(p.now().what == step::breathe);
  CHECK(p.now().repeating);
  p.clock.pass(3min);
  p.breathe(1);
  CHECK(p.current().grid->anchor.wall == first + 3min + 10s);
  CHECK(p.tube(1).earlier.size() == 1);
  CHECK(p.tube(1).earlier[0].closed == first);
  p.label(1);
  REQUIRE(p.tell(drink_started{}));
  const instant anchor = p.current().grid->anchor.wall;
  CHECK(p.refused(repeat_wanted{one, "again"}) == "no.repeat-late");
  // A correction told later changes the record, not the grid.
  REQUIRE(p.tell(reported_breath{one, anchor - 1min, how_known::told}));
  CHECK(p.current().grid->anchor.wall == anchor);
  CHECK(p.tube(1).taken->closed == anchor - 1min);
}

TEST_CASE("a wish to repeat tube 1 is over once the drink was started") {
  patient p;
  p.through_tube_1();
  REQUIRE(p.tell(repeat_wanted{one, "the lid was open"}));
  REQUIRE(p.tell(drink_started{}));
  CHECK_FALSE(p.now().repeating);
  CHECK(p.now().what == step::label);
  CHECK(p.refused(breath_begun{one}) == "no.taken");
}

TEST_CASE("only the latest tube can be blown again") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  REQUIRE(p.tell(repeat_wanted{two, "spoiled"}));
  CHECK(p.now().repeating);
  // The next falls due and goes first; then the wish has been overtaken.
  p.wait_for(3);
  CHECK(p.now().sample == three);
  CHECK_FALSE(p.now().repeating);
  p.breathe(3);
  CHECK(p.refused(breath_begun{two}) == "no.taken");
  CHECK(p.refused(repeat_wanted{two, "spoiled"}) == "no.repeat-late");
  CHECK(p.tube(2).earlier.empty());
}

TEST_CASE("a repeated tube keeps its number, its first closing and its place in the record") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  const instant first = p.tube(2).taken->closed;
  REQUIRE(p.tell(repeat_wanted{two, "spoiled"}));
  p.breathe(2);
  CHECK(p.tube(2).taken->closed > first);
  REQUIRE(p.tube(2).earlier.size() == 1);
  CHECK(p.tube(2).earlier[0].closed == first);
  CHECK_FALSE(p.tube(2).label_done); // the label has another time on it now
  CHECK(p.now().what == step::label);
  CHECK_FALSE(p.current().samples[2].taken.has_value());
}

TEST_CASE("a due tube comes before labels and symptoms") {
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  p.breathe(2);
  CHECK(p.now().what == step::label);
  p.label(2);
  CHECK(p.now().what == step::symptoms);
  p.wait_for(3);
  CHECK(p.now().what == step::breathe);
  CHECK(p.now().sample == three);
}

TEST_CASE("a drink not started in time is said, and comes before a due tube") {
  // The profile: within 300 s after tube 1.
  patient p;
  p.through_tube_1();
  p.label(1);
  p.clock.pass(300s);
  CHECK(p.now().what == step::drink);
  CHECK_FALSE(p.now().drink_overdue);
  p.clock.pass(1ms);
  CHECK(p.now().drink_overdue);
  p.clock.pass(12min);
  CHECK(p.now().what == step::drink);
  REQUIRE(p.tell(drink_started{}));
  CHECK(p.now().what == step::breathe);
  CHECK(p.now().sample == two);
}

TEST_CASE("after the tenth tube comes the finish, and what is missing is named") {
  patient p;
  p.through_the_drink();
  p.score(1);
  for (int n = 2; n <= 10; ++n) {
    if (n == 7) continue;
    p.sample(n);
  }
  CHECK(p.now().what == step::finish);
  CHECK(p.now().missed == std::vector<sample_number>{sample_number(7)});
  CHECK_FALSE(p.now().next_change.has_value());
}

TEST_CASE("the gate opens early only once the fast has begun") {
  patient p;
  CHECK_FALSE(may_start_early(p.current(), p.clock.look()));
  p.open_and_plan();
  p.clock.pass(utc("2027-04-05T18:29:59Z") - p.clock.wall());
  CHECK_FALSE(may_start_early(p.current(), p.clock.look()));
  p.clock.pass(1s); // 19:30 in London
  CHECK(may_start_early(p.current(), p.clock.look()));
}

TEST_CASE("what holds now and what comes next follow the plan") {
  patient p;
  p.open_and_plan();
  CHECK(p.now().holding.empty());
  REQUIRE(p.now().next.has_value());
  CHECK(p.now().next->rule == "plain-diet");
  p.clock.pass(utc("2027-04-05T06:30:00Z") - p.clock.wall()); // 07:30 the day before
  REQUIRE(p.now().holding.size() == 1);
  CHECK(p.now().holding[0].rule == "plain-diet");
  CHECK(p.now().next->rule == "fast");
  p.clock.pass(12h);
  REQUIRE(p.now().holding.size() == 2);
  CHECK(p.now().holding[0].rule == "fast");
  CHECK(p.now().holding[1].rule == "smoke-free");
  p.clock.pass(11h);
  CHECK(p.now().holding.size() == 3);
  CHECK_FALSE(p.now().next.has_value());
}
