// From the gate to the drink nothing wears off: what was agreed, answered, eaten or felt counts as
// long as it is so, whatever the clocks do and in whichever order it is told. A hole here lets
// somebody drink who was held back a moment before.
#include "tests/unit/session/at_the_sugar.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

// Eaten so long ago, told at once.
reported_slip eaten(const clock_reading& now, duration ago) {
  return {"fast", now.wall - ago, how_known::told, "", "meal"};
}

} // namespace

TEST_CASE("a clock set between gate and drink holds nobody back and lets nobody through") {
  for (const auto by : {-24h, 24h, -24h * 365, 24h * 365}) {
    INFO(by.count());
    at_the_sugar p;
    REQUIRE(p.tell(reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g",
                                parse_date("2027-04-06").value()}));
    p.clock.step(by);
    CHECK(p.now().what == step::sugar);
    REQUIRE(p.tell(sugar_set_aside{}));
    REQUIRE(p.tell(said("morning-fever", caution_answer::yes)));
    CHECK(p.now().what == step::held);
  }
}

TEST_CASE("a clock from before the plan was made says nothing of anybody's age") {
  patient p;
  p.open_and_plan();
  p.clock.pass(start - p.clock.wall());
  p.clock.reboot(1min);
  p.clock.step(utc("1970-01-01T00:01:00Z") - p.clock.wall());
  for (payload& told : gate_answers(p.current(), p.clock.look()))
    CHECK(p.refused(std::move(told)) == "");
  CHECK(p.refused(sugar_set_aside{}) == "");
}

TEST_CASE("a start before the birthday that makes somebody old enough is refused, planned or not") {
  patient p;
  REQUIRE(p.tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
  reported_person who = invented_person();
  who.birth_date = parse_date("2009-04-06").value(); // 18 on the planned day
  REQUIRE(p.tell(who));
  REQUIRE(p.tell(plan_of(start)));
  p.clock.pass(utc("2027-04-05T20:00:00Z") - p.clock.wall()); // the evening before
  p.answer_the_gate();
  CHECK(p.now().what != step::held); // nothing is wrong with the plan
  const reported_ready early{
      gate_checks(), {"fast", "awake", "smoke-free"}, "the laboratory", releaser::laboratory};
  CHECK(p.refused(early) == "no.age");
  p.clock.pass(start - p.clock.wall());
  p.answer_the_gate();
  CHECK(p.refused(reported_ready{gate_checks()}) == "");
}

TEST_CASE("who agrees to a start agrees to what was short then, and to nothing that comes later") {
  patient p;
  p.open_and_plan();
  p.clock.pass(utc("2027-04-06T06:28:00Z") - p.clock.wall());
  REQUIRE(p.tell(eaten(p.clock.look(), 7h)));
  p.answer_the_gate();
  const std::vector<std::string> all{"fast", "awake", "smoke-free", "antibiotics"};
  REQUIRE(p.tell(reported_ready{gate_checks(), all, "the laboratory", releaser::laboratory}));
  CHECK(p.now().what == step::sugar);
  // The others were named with it and were not short then.
  CHECK(p.current().ready_agreed_to == std::vector<std::string>{"fast"});
  SECTION("a rule that was kept then and is broken later") {
    REQUIRE(p.tell(reported_slip{"smoke-free", p.clock.wall(), how_known::told, "", "cigarette"}));
    CHECK(p.refused(sugar_set_aside{}) == "no.below-least");
    CHECK(p.now().what == step::gate);
  }
  SECTION("the same rule, broken once more") {
    REQUIRE(p.tell(eaten(p.clock.look(), 0h)));
    CHECK(p.refused(sugar_set_aside{}) == "no.below-least");
    REQUIRE(
        p.tell(reported_ready{gate_checks(), {"fast"}, "the laboratory", releaser::laboratory}));
    CHECK(p.refused(sugar_set_aside{}) == "");
  }
  SECTION("an earlier meal that is told later, too late for the least as well") {
    REQUIRE(p.tell(eaten(p.clock.look(), 7h + 30min)));
    CHECK(p.refused(sugar_set_aside{}) == "no.below-least");
    CHECK(p.now().what == step::gate);
  }
}

TEST_CASE("what is told while tube 1 is blown breaks the breath off, and it is not closed") {
  at_the_sugar p;
  REQUIRE(p.tell(sugar_set_aside{}));
  REQUIRE(p.tell(breath_begun{sample_number(1)}));
  p.clock.pass(fenwick().bounds.lead_in + lactulose().breath_most);
  CHECK(p.refused(tube_closed{sample_number(1)}) == "");
  REQUIRE(p.tell(said("morning-fever", caution_answer::yes)));
  CHECK_FALSE(p.current().breath);
  CHECK(p.refused(tube_closed{sample_number(1)}) != "");
  CHECK(p.now().what == step::held);
}

TEST_CASE("what was eaten past the gate counts by how long ago it was, however the clock is set") {
  for (const auto by : {-1h, 1h, 24h}) {
    INFO(by.count());
    at_the_sugar p;
    p.clock.pass(2min);
    p.clock.step(by);
    REQUIRE(p.tell(eaten(p.clock.look(), 0h)));
    CHECK(p.refused(sugar_set_aside{}) == "no.below-least");
    p.clock.pass(1min);
    CHECK(p.refused(sugar_set_aside{}) == "no.below-least");
  }
}

TEST_CASE(
    "the morning's answers hold until the drink: who waited with tube 1 closed is asked again") {
  at_the_sugar p;
  REQUIRE(p.tell(sugar_set_aside{}));
  p.clock.pass(morning_answers_hold - 5s);
  REQUIRE(p.tell(breath_begun{sample_number(1)}));
  p.clock.pass(fenwick().bounds.lead_in + lactulose().breath_most);
  REQUIRE(p.tell(tube_closed{sample_number(1)})); // begun in time: not broken off
  CHECK(p.refused(drink_started{}) == "no.unanswered");
  CHECK(p.now().what == step::gate);
  p.answer_the_gate();
  REQUIRE(p.tell(gate_answers(p.current(), p.clock.look()).back()));
  CHECK(p.refused(drink_started{}) == "");
}

TEST_CASE("a tube that was blown is told only once the sugar stands ready") {
  at_the_sugar p;
  const reported_breath told{sample_number(1), p.clock.wall() - 1min, how_known::told};
  CHECK(p.refused(told) == "no.sugar-first");
  REQUIRE(p.tell(sugar_set_aside{}));
  CHECK(p.refused(told) == "");
}

TEST_CASE("what was said of one test says nothing of another") {
  patient p;
  REQUIRE(p.tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  reported_caution ok = released("ask-diabetes", releaser::doctor);
  CHECK(p.refused(ok) == "no.which-test");
  ok.for_test = "glucose-75g";
  REQUIRE(p.tell(ok));
  const auto refused_for = [&](const std::string& id) {
    const protocol& of = shipped(id);
    return p.refused(plan_made{shipped_file(id), of.sugar.forms.back().form,
                               make_plan(of, start, zone_named("Europe/London")).value()});
  };
  CHECK(refused_for("glucose-75g") == "");
  CHECK(refused_for("lactulose-10g") == "no.ask-first");
}

TEST_CASE("a sign that was told stays until it has passed, and a final one for good") {
  at_the_sugar p;
  const auto sign = [&](bool final) {
    for (const warning_sign& w : p.current().test->warnings.signs) {
      if (w.is_final == final) return w.id;
    }
    QB_BELIEVE(false);
    return std::string();
  };
  SECTION("a milder one is not undone by telling none") {
    REQUIRE(p.tell(reported_red_flags{sample_number(1), {sign(false)}}));
    REQUIRE(p.tell(reported_red_flags{sample_number(1), {}}));
    CHECK(p.refused(unwell_over{false}) == "no.not-passed");
    CHECK(p.refused(unwell_over{true}) == "");
  }
  SECTION("nor a final one by that, or by calling the plan off and planning anew") {
    REQUIRE(p.tell(reported_red_flags{sample_number(1), {sign(true)}}));
    REQUIRE(p.tell(reported_red_flags{sample_number(1), {}}));
    CHECK(p.refused(unwell_over{true}) == "no.final-sign");
    REQUIRE(p.tell(plan_called_off{""}));
    CHECK(p.refused(unwell_over{true}) == "no.final-sign");
  }
}

TEST_CASE("a drink opens the page of help whatever stood against it, and whenever it is known") {
  SECTION("too little of the fast") {
    at_the_sugar p;
    REQUIRE(p.tell(eaten(p.clock.look(), 1h)));
    REQUIRE(p.tell(reported_drink{p.clock.wall(), how_known::told}));
    CHECK(p.now().what == step::unwell);
    CHECK(may_feel_well_again(p.current()));
  }
  SECTION("when the plan was called off, by what was answered before") {
    at_the_sugar p("fructose-25g");
    REQUIRE(p.tell(said("ask-fructose-intolerance", caution_answer::yes)));
    REQUIRE(p.tell(plan_called_off{""}));
    REQUIRE(p.tell(reported_drink{p.clock.wall(), how_known::told}));
    CHECK(p.refused(unwell_over{true}) == "no.final-sign");
  }
  SECTION("by an answer that came after it") {
    at_the_sugar p("fructose-25g");
    REQUIRE(p.tell(reported_drink{p.clock.wall(), how_known::told}));
    CHECK(p.now().what != step::unwell);
    REQUIRE(p.tell(said("ask-fructose-intolerance", caution_answer::yes)));
    CHECK(p.now().what == step::unwell);
    CHECK_FALSE(may_feel_well_again(p.current()));
  }
  SECTION("a time that is still to come was by now, and is known from memory") {
    at_the_sugar p;
    const instant now = p.clock.wall();
    REQUIRE(p.tell(reported_drink{now + 1h, how_known::told}));
    CHECK(p.current().drink_start->at.wall == now);
    CHECK(p.current().drink_start_how == how_known::estimated);
  }
}

TEST_CASE("a kit that is found to be for another test can be told until the drink") {
  patient p;
  p.through_tube_1();
  REQUIRE(p.tell(
      reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactose-25g", parse_date("2027-12-31").value()}));
  CHECK(p.refused(drink_started{}) == "no.other-kit");
}

TEST_CASE("not today holds for its day, also for a start that is planned anew") {
  at_the_sugar p;
  REQUIRE(p.tell(said("morning-low-sugar", caution_answer::yes)));
  const auto planned_for = [&](duration later) {
    return plan_made{shipped_file("lactulose-10g"), lactulose().sugar.forms.back().form,
                     make_plan(lactulose(), start + later, zone_named("Europe/London")).value()};
  };
  CHECK(p.refused(planned_for(2h)) == "no.never-today");
  CHECK(p.refused(planned_for(24h)) == "");
}

TEST_CASE("a plan that does not follow from its rules is refused") {
  patient p;
  REQUIRE(p.tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  const plan_made good = plan_of(start);
  const auto bent = [&](const auto& how) {
    plan_made bad = good;
    how(bad);
    return p.refused(bad);
  };
  CHECK(bent([](plan_made& x) { x.what.windows.clear(); }) == "no.plan");
  CHECK(bent([](plan_made& x) { x.what.windows.back().from += 1h; }) == "no.plan");
  CHECK(bent([](plan_made& x) { x.what.protocol_id = "lactose-25g"; }) == "no.plan");
  CHECK(bent([](plan_made& x) { x.what.samples.back().due += 1min; }) == "no.plan");
  CHECK(bent([](plan_made& x) { x.form = "tablet"; }) == "no.plan");
  CHECK(p.refused(good) == "");
}

TEST_CASE("a plan for an invented laboratory is kept only after it was said that this is trying") {
  std::string text = fenwick_text();
  const std::string mark = "\"for_trying\":false";
  text.replace(text.find(mark), mark.size(), "\"for_trying\":true");
  for (const bool practice : {false, true}) {
    patient p;
    REQUIRE(p.tell(opened{"test-0001", "quarterbreath 0.1.0", practice, text}));
    REQUIRE(p.tell(invented_person()));
    const plan_made wanted = plan_of(start);
    CHECK(wants_trying_said(p.current()) != practice);
    CHECK(p.refused(wanted) == (practice ? "" : "no.for-trying"));
    REQUIRE(p.tell(reported_checklist{trying_list, {}}));
    CHECK(p.refused(wanted) == "");
  }
}
