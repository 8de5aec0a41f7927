// What is answered before the plan, and what it keeps waiting: sentences a laboratory would say.
// A caution that slips through here lets somebody fast who must not.
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const instant start = utc("2027-04-06T06:30:00Z");

reported_caution answered(const std::string& rule, caution_answer answer) {
  reported_caution out{rule, answer, asked_outcome::not_asked, "", ""};
  out.asked_again = true; // what is tested here is what an answer does, not how it is taken back
  return out;
}
reported_caution asked(const std::string& rule, asked_outcome outcome,
                       caution_answer answer = caution_answer::yes) {
  reported_caution out{rule, answer, outcome, "my diabetes nurse", "as she wrote down"};
  if (outcome == asked_outcome::go_on) {
    out.said_by = releaser::doctor;
    out.for_test = "lactulose-10g";
  }
  out.asked_again = true;
  return out;
}
reported_washout taken(washout_answer answer, std::optional<civil_date> on = std::nullopt) {
  return {{"antibiotics", answer, on, false}, ""};
}
civil_date day(const char* text) {
  return parse_date(text).value();
}

// Opened, with the invented person.
struct known_person : patient {
  known_person() {
    QB_BELIEVE(tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
    QB_BELIEVE(tell(invented_person()));
  }
};

plan_made plan_for(const std::string& id, instant at) {
  return {shipped_file(id), "powder",
          make_plan(shipped(id), at, zone_named("Europe/London")).value()};
}

} // namespace

TEST_CASE("who answers yes to diabetes waits with the plan until who answered is recorded") {
  known_person p;
  REQUIRE(p.tell(answered("ask-diabetes", caution_answer::yes)));
  CHECK(p.refused(plan_of(start)) == "no.ask-first");
  CHECK(p.no.expected == "Please ask first. Your plan can wait for the answer.");
  // An answer without a name is no answer.
  reported_caution nobody = asked("ask-diabetes", asked_outcome::go_on);
  nobody.who.clear();
  CHECK(p.refused(nobody) == "no.who-answered");
  CHECK(p.refused(plan_of(start)) == "no.ask-first");
  REQUIRE(p.tell(asked("ask-diabetes", asked_outcome::go_on)));
  CHECK(p.refused(plan_of(start)) == "");
  const noted_caution* told = find_noted_caution(p.current(), "ask-diabetes");
  REQUIRE(told != nullptr);
  CHECK(told->seqs.size() == 2); // both answers stay in the record; the last counts
  CHECK(told->what.who == "my diabetes nurse");
  CHECK(told->what.words == "as she wrote down");
}

TEST_CASE("every question of every shipped test keeps its plan waiting on yes and on not sure") {
  for (const std::string& id : shipped_ids()) {
    for (const caution& c : shipped(id).cautions) {
      INFO(id << " " << c.why.rule);
      known_person p;
      for (const auto answer : {caution_answer::yes, caution_answer::unsure}) {
        REQUIRE(p.tell(answered(c.why.rule, answer)));
        const leads_to leads = answer == caution_answer::yes ? c.leads : c.unsure_leads;
        CHECK(p.refused(plan_for(id, start)) ==
              (leads == leads_to::ask_first ? "no.ask-first" : "no.never"));
      }
      REQUIRE(p.tell(answered(c.why.rule, caution_answer::no)));
      CHECK(p.refused(plan_for(id, start)) == "");
    }
  }
}

TEST_CASE("who was asked and said 'not this test' keeps the plan closed") {
  known_person p;
  REQUIRE(p.tell(asked("ask-surgery", asked_outcome::not_this_test)));
  CHECK(p.refused(plan_of(start)) == "no.refused");
}

TEST_CASE("galactosaemia stays closed for lactulose whoever says otherwise") {
  known_person p;
  REQUIRE(p.tell(asked("ask-galactosaemia", asked_outcome::go_on)));
  CHECK(p.refused(plan_of(start)) == "no.never");
}

TEST_CASE("a caution of another sugar is asked about, until a kit's code says which sugar it is") {
  known_person p;
  REQUIRE(p.tell(answered("ask-galactosaemia", caution_answer::yes)));
  const payload glucose = plan_for("glucose-75g", start);
  CHECK(p.refused(glucose) == "no.ask-first");
  REQUIRE(p.tell(reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "glucose-75g", day("2027-12-31")}));
  CHECK(p.refused(glucose) == "");
}

TEST_CASE("what a sugar must never meet closes its own test") {
  known_person p;
  REQUIRE(p.tell(answered("ask-fructose-intolerance", caution_answer::yes)));
  CHECK(p.refused(plan_for("fructose-25g", start)) == "no.never");
}

TEST_CASE("a child's plan is refused kindly, and an adult's birthday counts to the day") {
  known_person p;
  reported_person who = invented_person();
  who.birth_date = day("2009-04-07"); // 18 the day after the test
  REQUIRE(p.tell(who));
  CHECK(p.refused(plan_of(start)) == "no.age");
  CHECK(p.no.expected == "This test is for another age group. The laboratory will help you.");
  who.birth_date = day("2009-04-06");
  REQUIRE(p.tell(who));
  CHECK(p.refused(plan_of(start)) == "");
}

TEST_CASE("a kit for another test, or too old on the day, is refused with whom to call") {
  known_person p;
  reported_kit kit{"FV2C-7HM2-3N4Q", "FV-2C7H", "lactose-25g", day("2027-12-31")};
  REQUIRE(p.tell(kit));
  CHECK(p.refused(plan_of(start)) == "no.other-kit");
  CHECK(p.no.expected == "Your kit is for another test. Please call the laboratory.");
  CHECK(p.refused(plan_for("lactose-25g", start)) == "");
  kit = {"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g", day("2027-04-05")};
  REQUIRE(p.tell(kit));
  CHECK(p.refused(plan_of(start)) == "no.kit-expired");
  CHECK(p.no.expected == "Your kit is too old on that day. Please call the laboratory.");
  kit.expires = day("2027-04-06"); // that day included
  REQUIRE(p.tell(kit));
  CHECK(p.refused(plan_of(start)) == "");
  CHECK(p.current().kit->kit_number == "FV-2C7H");
}

TEST_CASE("the kit's answer is checked like any other, and stands once the drink is begun") {
  patient p;
  const reported_kit kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g", day("2027-12-31")};
  CHECK(p.refused(kit) == "no.not-open");
  p.through_tube_1();
  CHECK(p.refused(kit) == "");
  REQUIRE(p.tell(drink_started{}));
  CHECK(p.refused(kit) == "no.started");
  known_person q;
  reported_kit wrong = kit;
  wrong.code.clear();
  CHECK(q.refused(wrong) == "no.empty");
  wrong = kit;
  wrong.expires = civil_date{std::chrono::year{2027}, std::chrono::month(2), std::chrono::day(30)};
  CHECK(q.refused(wrong) == "no.date");
}

TEST_CASE("a plan that was called off leaves its history, and another may be made") {
  patient p;
  p.open_and_plan();
  p.pass_the_gate();
  REQUIRE(p.tell(reported_slip{"fast", p.clock.wall() - 1h, how_known::told, "tea", "drink"}));
  REQUIRE(p.tell(plan_called_off{"a cold"}));
  CHECK_FALSE(p.current().planned.has_value());
  CHECK_FALSE(p.current().test.has_value());
  CHECK_FALSE(p.current().ready.has_value());
  CHECK_FALSE(p.current().sugar.has_value());
  CHECK(p.current().samples.empty());
  CHECK(p.now().what == step::choose);
  REQUIRE(p.current().earlier_plans.size() == 1);
  const earlier_plan& old = p.current().earlier_plans.front();
  CHECK(old.called_off);
  CHECK(old.reason == "a cold");
  CHECK(old.what.what.start == start);
  CHECK(old.seq == p.current().seq);
  CHECK(p.current().slips.size() == 1); // what was told stays told
  CHECK(p.refused(plan_called_off{""}) == "no.plan-first");

  REQUIRE(p.tell(plan_of(utc("2027-04-20T06:30:00Z"))));
  CHECK(p.now().what == step::prepare);
  CHECK(p.current().earlier_plans.size() == 1);
  CHECK(p.current().slips.front().what.subject == "drink");
}

TEST_CASE("a move keeps the plan that was, with the moment it stopped being the plan") {
  patient p;
  p.open_and_plan();
  p.clock.pass(1h);
  REQUIRE(p.tell(plan_of(utc("2027-04-07T06:30:00Z"))));
  REQUIRE(p.current().earlier_plans.size() == 1);
  CHECK_FALSE(p.current().earlier_plans[0].called_off);
  CHECK(p.current().earlier_plans[0].what.what.start == start);
  CHECK(p.current().earlier_plans[0].until.wall == p.clock.wall());
}

TEST_CASE("a test that has begun is not called off: it is ended") {
  patient p;
  p.through_tube_1();
  CHECK(p.refused(plan_called_off{"a cold"}) == "no.started");
  CHECK(p.refused(test_ended{"stopped"}) == "");
  CHECK(p.refused(plan_called_off{"a cold"}) == "no.ended");
  CHECK(p.refused(answered("ask-diabetes", caution_answer::no)) == "no.ended");
  CHECK(p.refused(taken(washout_answer::never)) == "no.ended");
}

TEST_CASE("an answer about a medicine has a day where it needs one, and the last one counts") {
  known_person p;
  CHECK(p.refused(taken(washout_answer::last_on)) == "no.date");
  CHECK(p.refused(taken(washout_answer::until)) == "no.date");
  CHECK(p.refused(taken(washout_answer::never, day("2027-03-01"))) == "no.date");
  CHECK(p.refused(taken(washout_answer::last_on, day("2027-02-20"))) == "");
  CHECK(p.refused(taken(washout_answer::last_on, day("2027-03-01"))) == "");
  CHECK(p.refused(taken(washout_answer::unknown)) == "");
  CHECK(p.refused(taken(washout_answer::cannot_stop)) == "");
  const noted_washout* told = find_noted_washout(p.current(), "antibiotics");
  REQUIRE(told != nullptr);
  CHECK(told->seqs.size() == 4);
  CHECK(told->what.what.answer == washout_answer::cannot_stop);
  CHECK(p.current().washouts.size() == 1);
  CHECK(find_noted_washout(p.current(), "laxatives") == nullptr);
}

TEST_CASE("going on in spite of a medicine needs the name of who agreed") {
  known_person p;
  reported_washout told{{"laxatives", washout_answer::cannot_stop, std::nullopt, true}, ""};
  CHECK(p.refused(told) == "no.who-answered");
  told.who = "the laboratory";
  CHECK(p.refused(told) == "no.who-may-say");
  told.said_by = releaser::laboratory;
  CHECK(p.refused(told) == "");
}

TEST_CASE("a protocol's own bounds replace the profile's: lactose is on time up to 5 min after") {
  for (const char* id : {"lactulose-10g", "lactose-25g"}) {
    known_person p;
    REQUIRE(p.tell(plan_for(id, start)));
    const bool own = shipped(id).bounds.has_value();
    CHECK(own == (std::string(id) == "lactose-25g"));
    CHECK(bounds_of(p.current()).on_time == (own ? 300s : 120s));
    CHECK(bounds_of(p.current()).last_call == (own ? 900s : 450s));
  }
}

TEST_CASE("a lactose test has seven tubes, and a lactose tube four minutes late is on time") {
  known_person p;
  REQUIRE(p.tell(plan_for("lactose-25g", start)));
  CHECK(p.current().samples.size() == 7);
  p.pass_the_gate();
  p.score(1);
  p.breathe(1);
  p.label(1);
  REQUIRE(p.tell(drink_started{}));
  p.clock.pass(60s);
  REQUIRE(p.tell(drink_ended{}));
  p.clock.pass(30min + 4min - 60s - 10s); // closed 10 s after the press
  p.breathe(2);
  CHECK(timing_of(p.current(), sample_number(2)) == timing::on_time);
  CHECK(p.refused(label_written{sample_number(8)}) == "no.no-such-tube");
}

TEST_CASE("starting with less than asked is in the record, with who agreed") {
  patient p;
  p.open_and_plan();
  p.clock.pass(utc("2027-04-06T06:28:00Z") - p.clock.wall());
  REQUIRE(p.tell(reported_slip{"fast", p.clock.wall() - 60min, how_known::told, "", "meal"}));
  for (payload& told : gate_answers(p.current(), p.clock.look()))
    REQUIRE(p.tell(std::move(told)));
  CHECK(p.current().ready_not_kept == std::vector<std::string>{"fast"});
  CHECK(p.current().ready_agreed == "the laboratory");
  REQUIRE(p.tell(plan_of(utc("2027-04-07T06:30:00Z"))));
  CHECK(p.current().ready_not_kept.empty()); // it belonged to another start
  CHECK(p.current().ready_agreed.empty());
}

TEST_CASE("an answer that could not be read back from the record does not get into it") {
  known_person p;
  reported_caution told = asked("ask-diabetes", asked_outcome::go_on);
  told.words = "two\nlines";
  CHECK(p.refused(told) == "no.one-line");
  told = asked("ask-diabetes", asked_outcome::go_on);
  told.who = std::string(501, 'x');
  CHECK(p.refused(told) == "no.too-long");
  CHECK(p.refused(answered("", caution_answer::no)) == "no.empty");
  REQUIRE(p.tell(plan_of(start)));
  CHECK(p.refused(plan_called_off{"two\nlines"}) == "no.one-line");
  CHECK(p.refused(reported_slip{"fast", p.clock.wall(), how_known::told, "", "two\nlines"}) ==
        "no.one-line");
}
