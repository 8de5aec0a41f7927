// When things go wrong: a kill in a breath, a clock that is set, a restart, feeling unwell.
// The grid and the record must stand through all of them.
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const sample_number two(2);
const sample_number three(3);

} // namespace

TEST_CASE("the grid does not move when somebody sets the clock") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  p.clock.step(1h);
  const duration before = p.current().grid->at(p.clock.look()).length;
  p.sample(3);
  CHECK(p.current().grid->at(p.clock.look()).length - before == 15min);
  CHECK(lateness(p.current(), three) == 10s);
  CHECK(p.now().sure == certainty::exact);
  REQUIRE(p.current().clock_changes.size() == 1);
  CHECK(p.current().clock_changes[0].what.by == duration{1h});
  // The next due time is shown as the clock now stands.
  CHECK(due_on_wall(p.current(), sample_number(4), p.clock.look()) ==
        p.current().grid->anchor.wall + 45min + 1h);
}

TEST_CASE("after a restart the grid goes on by the wall clock, and says that it does") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  const duration before = p.current().grid->at(p.clock.look()).length;
  p.clock.reboot(7min);
  REQUIRE(p.tell(resumed{}));
  CHECK(p.current().grid->at(p.clock.look()).length == before + 7min);
  CHECK(p.now().sure == certainty::by_wall);
  REQUIRE(p.current().clock_changes.size() == 1);
  CHECK(p.current().clock_changes[0].what.what == clock_change::kind::rebooted);
  p.sample(3);
  CHECK(lateness(p.current(), three) == 10s);
}

TEST_CASE("a due time that passed while the machine was off is stated, not hidden") {
  patient p;
  p.through_the_drink();
  p.score(1);
  p.sample(2);
  p.clock.reboot(18min);
  REQUIRE(p.tell(resumed{}));
  CHECK(p.now().what == step::breathe);
  CHECK(p.now().sample == three);
  CHECK(*p.now().to_due < duration{0});
  p.clock.reboot(15min);
  REQUIRE(p.tell(resumed{}));
  CHECK(p.now().missed == std::vector<sample_number>{three});
}

TEST_CASE("a breath whose closing nobody saw is asked about, not guessed") {
  // Unsure after lead-in, breath and on-time bound: 5 + 5 + 120 s.
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  REQUIRE(p.tell(breath_begun{two}));
  p.clock.pass(130s - 1ms);
  CHECK(p.now().what == step::close);
  p.clock.pass(1ms);
  CHECK(p.now().what == step::unsure);
  CHECK(p.refused(tube_closed{two}) == "no.unsure");
  SECTION("it was not taken") {
    REQUIRE(p.tell(breath_abandoned{two, "not taken"}));
    CHECK(p.now().what == step::breathe);
    CHECK(p.now().sample == two);
  }
  SECTION("it was taken, at a time that is told") {
    const instant really = p.clock.wall() - 2min;
    REQUIRE(p.tell(reported_breath{two, really, how_known::estimated}));
    CHECK(p.tube(2).taken->closed == really);
    CHECK(p.tube(2).taken->sure == certainty::by_wall);
    CHECK_FALSE(p.current().breath.has_value());
  }
}

TEST_CASE("feeling unwell comes before everything and breaks off the breath") {
  patient p;
  p.through_the_drink();
  p.wait_for(2);
  REQUIRE(p.tell(breath_begun{two}));
  REQUIRE(p.tell(reported_unwell{}));
  CHECK(p.now().what == step::unwell);
  CHECK_FALSE(p.current().breath.has_value());
  SECTION("and then going on, once no warning sign is there, finds the tube still due") {
    CHECK(p.refused(unwell_over{}) == "no.signs-first");
    REQUIRE(p.tell(reported_red_flags{two, {}}));
    REQUIRE(p.tell(unwell_over{}));
    CHECK(p.now().what == step::breathe);
    CHECK(p.now().sample == two);
  }
  SECTION("and then ending leaves every other tube missed") {
    REQUIRE(p.tell(test_ended{"unwell"}));
    CHECK(p.now().what == step::finish);
    CHECK(p.now().missed.size() == 9);
    CHECK(p.refused(breath_begun{two}) == "no.ended");
    CHECK(p.refused(drink_started{}) == "no.ended");
    REQUIRE(p.tell(test_ended{"again"})); // stopping is never refused; the first stands
    CHECK(p.current().ended_reason == "unwell");
    // Comments and the export stay possible.
    CHECK(p.refused(reported_comment{"better now"}) == "");
    CHECK(p.refused(exported{}) == "");
  }
}

TEST_CASE("someone who feels unwell may end the test at any step") {
  patient p;
  p.open_and_plan();
  REQUIRE(p.tell(reported_unwell{}));
  CHECK(p.now().what == step::unwell);
  REQUIRE(p.tell(test_ended{"unwell"}));
  CHECK(p.now().what == step::finish);
}

TEST_CASE("tube 1 told afterwards anchors the grid at the time that was told") {
  patient p;
  p.open_and_plan();
  p.pass_the_gate();
  p.score(1);
  p.clock.pass(4min);
  const instant really = p.clock.wall() - 3min;
  REQUIRE(p.tell(reported_breath{sample_number(1), really, how_known::told}));
  CHECK(p.current().grid->anchor.wall == really);
  CHECK(p.current().grid->at(p.clock.look()).length == 3min);
  CHECK(due_on_wall(p.current(), two, p.clock.look()) == really + 15min);
  p.clock.step(2h);
  p.clock.pass(1min);
  CHECK(p.current().grid->at(p.clock.look()).length == 4min);
}

TEST_CASE("events out of any order are folded without a crash and number the record") {
  // The fold is total: a record from another program may hold them in any order.
  clock_double clock(utc("2027-04-06T06:30:00Z"));
  const sample_number last(24);
  const std::vector<payload> all{
      opened{"x", "y", false, fenwick_text()},
      invented_person(),
      plan_of(utc("2027-04-06T06:30:00Z")),
      plan_made{std::string("not a protocol"), "syrup", {}},
      reported_slip{"fast", utc("2027-04-05T22:00:00Z"), how_known::told, ""},
      reported_checklist{"evening", {}},
      reported_ready{},
      sugar_set_aside{},
      reported_symptoms{last, {}, ""},
      breath_begun{last},
      breath_abandoned{last, ""},
      tube_closed{last},
      tube_closed{two},
      reported_breath{last, utc("2027-04-06T06:30:00Z"), how_known::told},
      repeat_wanted{last, ""},
      label_written{last},
      drink_started{},
      drink_ended{false},
      reported_comment{"x"},
      reported_unwell{},
      unwell_over{},
      test_ended{"x"},
      resumed{},
      clock_changed{},
      exported{}};
  for (std::size_t first = 0; first < all.size(); ++first) {
    for (std::size_t stride : {1U, 3U, 7U, 11U}) {
      std::vector<event> events;
      for (std::size_t i = 0; i < all.size(); ++i) {
        clock.pass(7s);
        events.push_back({static_cast<std::int64_t>(i) + 1, clock.look(),
                          all[(first + i * stride) % all.size()]});
      }
      const state s = fold_events(events);
      CHECK(s.seq == static_cast<std::int64_t>(events.size()));
      (void)what_now(s, clock.look());
    }
  }
}
