// Every rule of a protocol against a start: seen, told, not kept, open.
// The plan of these tests starts on Tuesday 6 April 2027 at 07:30 in London.
#include "core/findings/preparation.hpp"
#include "core/session/readiness.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

const zone& london() {
  return zone_named("Europe/London");
}
instant at(const std::string& civil) {
  return local(civil, "Europe/London");
}

void go_to(patient& p, const std::string& civil) {
  p.clock.pass(at(civil) - p.clock.wall());
}

rule_check check_of(const patient& p, const std::string& rule, const std::string& start) {
  for (const rule_check& c : readiness(p.current(), p.clock.look(), at(start), london())) {
    if (c.rule == rule) return c;
  }
  FAIL("no entry for " << rule);
  return {};
}

rule_standing standing(const patient& p, const std::string& rule,
                       const std::string& start = "2027-04-06 07:30") {
  return check_of(p, rule, start).standing;
}

void answer(patient& p, const std::string& rule, washout_answer a, const std::string& on = "",
            const std::string& who = "") {
  reported_washout told{{rule, a, std::nullopt, !who.empty()}, who};
  if (!on.empty()) told.what.on = *parse_date(on);
  if (!who.empty()) told.said_by = releaser::doctor;
  REQUIRE(p.tell(told));
}

std::vector<std::string> words_of(const patient& p, const std::string& rule) {
  std::vector<std::string> out;
  for (const finding& f : findings_of(p.current(), p.clock.look(), london())) {
    if (f.rule == rule) out.push_back(f.words);
  }
  return out;
}

} // namespace

TEST_CASE("readiness has one entry for every rule of the protocol, in its order") {
  patient p;
  p.open_and_plan();
  std::vector<std::string> wanted{"adults-only", "kit-tubes"};
  for (const auto& w : lactulose().windows)
    wanted.push_back(w.why.rule);
  for (const auto& w : lactulose().washouts)
    wanted.push_back(w.why.rule);
  for (const auto& c : lactulose().cautions)
    wanted.push_back(c.why.rule);
  for (const auto& c : lactulose().morning)
    wanted.push_back(c.why.rule);
  std::vector<std::string> got;
  for (const rule_check& c :
       readiness(p.current(), p.clock.look(), at("2027-04-06 07:30"), london())) {
    got.push_back(c.rule);
    CHECK_FALSE(c.name.empty());
    CHECK_FALSE(c.words.empty());
    CHECK(name_of_rule(lactulose(), c.rule) == c.name);
  }
  CHECK(got == wanted);
}

TEST_CASE("age is met by record, and a kit code by what it says") {
  patient p;
  p.open_and_plan();
  CHECK(standing(p, "adults-only") == rule_standing::by_record);
  CHECK(standing(p, "kit-tubes") == rule_standing::on_word); // no code: the person chose
  REQUIRE(p.tell(reported_kit{"a code", "QB7-1", "lactulose-10g", *parse_date("2027-04-05")}));
  CHECK(standing(p, "kit-tubes") == rule_standing::by_record);
  CHECK(standing(p, rule_kit_expiry) == rule_standing::below_least); // a day too old
  CHECK(standing(p, rule_kit_expiry, "2027-04-05 07:30") == rule_standing::by_record);
  REQUIRE(p.tell(reported_kit{"a code", "QB7-1", "glucose-75g", *parse_date("2027-12-31")}));
  CHECK(standing(p, "kit-tubes") == rule_standing::below_least);
}

TEST_CASE("a fast confirmed as it began is met by record, else it rests on the person's word") {
  patient p;
  p.open_and_plan();
  CHECK(standing(p, "fast") == rule_standing::on_word);
  SECTION("pressed just before") {
    go_to(p, "2027-04-05 19:20");
    CHECK(p.clock.wall() == at("2027-04-05 19:20"));
  }
  SECTION("pressed a little after") {
    go_to(p, "2027-04-05 19:50");
    CHECK(p.clock.wall() == at("2027-04-05 19:50"));
  }
  REQUIRE(p.tell(reported_checklist{"fast", {}}));
  CHECK(standing(p, "fast") == rule_standing::by_record);
  CHECK(check_of(p, "fast", "2027-04-06 07:30").events.size() == 2);
  CHECK(check_of(p, "fast", "2027-04-06 07:30").seen >= 11h);
}

TEST_CASE("a press in the small hours does not prove the evening, one days before proves nothing") {
  patient p;
  p.open_and_plan();
  SECTION("in the small hours") {
    go_to(p, "2027-04-06 05:00");
    CHECK(p.clock.wall() == at("2027-04-06 05:00"));
  }
  SECTION("days before") {
    go_to(p, "2027-04-03 19:30");
    CHECK(p.clock.wall() == at("2027-04-03 19:30"));
  }
  REQUIRE(p.tell(reported_checklist{"fast", {}}));
  CHECK(standing(p, "fast") == rule_standing::on_word);
}

TEST_CASE("a press three hours late is no record of a whole fast") {
  patient p;
  p.open_and_plan();
  go_to(p, "2027-04-05 22:30");
  REQUIRE(p.tell(reported_checklist{"fast", {}}));
  CHECK(standing(p, "fast") == rule_standing::on_word);
}

TEST_CASE("a press does not stand for what a later slip undid") {
  patient p;
  p.open_and_plan();
  go_to(p, "2027-04-05 19:30");
  REQUIRE(p.tell(reported_checklist{"fast", {}}));
  go_to(p, "2027-04-05 22:00");
  REQUIRE(p.tell(reported_slip{"fast", at("2027-04-05 21:30"), how_known::told, "", "meal"}));
  const rule_check c = check_of(p, "fast", "2027-04-06 07:30");
  CHECK(c.standing == rule_standing::below_asked);
  CHECK(*c.kept == 10h);
  CHECK_FALSE(c.seen.has_value());
  CHECK(standing(p, "fast", "2027-04-06 05:00") == rule_standing::below_least);
  CHECK(standing(p, "fast", "2027-04-06 09:30") == rule_standing::on_word);
}

TEST_CASE("the morning list confirms being awake and the last hour") {
  patient p;
  p.open_and_plan();
  go_to(p, "2027-04-06 06:25");
  REQUIRE(p.tell(reported_checklist{"morning", {"awake", "smoke-free"}}));
  CHECK(standing(p, "awake") == rule_standing::by_record);
  CHECK(standing(p, "smoke-free") == rule_standing::on_word);
  CHECK(standing(p, "fast") == rule_standing::on_word);
}

TEST_CASE("an early start cuts the fast short: a note, and below 8 h a review (NAC 2017 T1)") {
  patient p;
  p.open_and_plan();
  CHECK(standing(p, "fast", "2027-04-06 06:30") == rule_standing::below_asked);
  CHECK(standing(p, "fast", "2027-04-06 03:29") == rule_standing::below_least);
  CHECK(standing(p, "plain-diet", "2027-04-06 06:30") == rule_standing::on_word);
}

TEST_CASE("washouts: days kept of days asked, and who agreed") {
  patient p;
  p.open_and_plan();
  CHECK(standing(p, "antibiotics") == rule_standing::open);
  CHECK(check_of(p, "antibiotics", "2027-04-06 07:30").unanswered);
  answer(p, "antibiotics", washout_answer::never);
  CHECK(standing(p, "antibiotics") == rule_standing::on_word);
  answer(p, "antibiotics", washout_answer::last_on, "2027-03-09"); // 28 days
  CHECK(standing(p, "antibiotics") == rule_standing::on_word);
  answer(p, "antibiotics", washout_answer::last_on, "2027-03-17");
  CHECK(standing(p, "antibiotics") == rule_standing::below_least);
  CHECK(words_of(p, "antibiotics") ==
        std::vector<std::string>{
            "Antibiotics: last on 2027-03-17; 20 days of 28 days, at least 28 days"});
  answer(p, "antibiotics", washout_answer::cannot_stop, "", "Dr Fennimore");
  CHECK(standing(p, "antibiotics") == rule_standing::below_asked);
  CHECK(words_of(p, "antibiotics") ==
        std::vector<std::string>{
            "Antibiotics: goes on; agreed by Dr Fennimore (a doctor); 0 days of 28 days, at least "
            "28 days"});
  answer(p, "laxatives", washout_answer::unknown);
  CHECK(standing(p, "laxatives") == rule_standing::open);
  answer(p, "colonoscopy", washout_answer::last_on, "2027-03-27"); // 10 of 14, at least 7
  CHECK(standing(p, "colonoscopy") == rule_standing::below_asked);
}

TEST_CASE("a caution answered yes is open until somebody said to go on, and told with who") {
  patient p;
  p.open_and_plan();
  reported_caution told{"ask-diabetes", caution_answer::yes, asked_outcome::not_asked, "", ""};
  REQUIRE(p.tell(told));
  CHECK(standing(p, "ask-diabetes") == rule_standing::open);
  CHECK(needs_agreement(check_of(p, "ask-diabetes", "2027-04-06 07:30")));
  told.outcome = asked_outcome::go_on;
  told.who = "my diabetes nurse";
  told.said_by = releaser::doctor;
  REQUIRE(p.tell(told));
  CHECK(standing(p, "ask-diabetes") == rule_standing::on_word);
  CHECK(words_of(p, "ask-diabetes") ==
        std::vector<std::string>{"Diabetes: yes; may go on, said my diabetes nurse"});
}

TEST_CASE("a question of another sugar, answered yes, is told too") {
  patient p;
  p.open_and_plan();
  REQUIRE(p.tell(reported_caution{"no-other-sugar", caution_answer::yes, asked_outcome::go_on,
                                  "Ms Quill", "", answerer::person, releaser::laboratory}));
  CHECK(words_of(p, "no-other-sugar") ==
        std::vector<std::string>{
            "asked for another sugar (no-other-sugar): yes; may go on, said Ms Quill"});
}

TEST_CASE("the morning's answers of another start do not count for this one") {
  patient p;
  p.open_and_plan();
  const reported_caution no{"morning-fever", caution_answer::no, asked_outcome::not_asked, "", ""};
  REQUIRE(p.tell(no));
  CHECK(standing(p, "morning-fever") == rule_standing::on_word);
  p.clock.pass(1h);
  REQUIRE(p.tell(plan_of(at("2027-04-07 07:30"))));
  CHECK(standing(p, "morning-fever", "2027-04-07 07:30") == rule_standing::open);
}

TEST_CASE("questions nobody answered are one line in the findings") {
  patient p;
  p.open_and_plan();
  const std::size_t all =
      lactulose().washouts.size() + lactulose().cautions.size() + lactulose().morning.size();
  REQUIRE(words_of(p, "not-answered").size() == 1);
  CHECK(words_of(p, "not-answered").front() ==
        std::to_string(all) + " questions of the preparation not answered: Antibiotics, "
                              "Laxatives, Stool softeners and fibre and others");
}

TEST_CASE("moves and a call-off are told with their count and first start") {
  patient p;
  p.open_and_plan();
  REQUIRE(p.tell(plan_of(at("2027-04-07 07:30"))));
  REQUIRE(p.tell(plan_of(at("2027-04-08 07:30"))));
  CHECK(words_of(p, "start-moved") ==
        std::vector<std::string>{"start moved 2 times: first planned for Tuesday 07:30"});
  REQUIRE(p.tell(plan_called_off{"a cold"}));
  CHECK(p.current().earlier_plans.back().called_off);
  REQUIRE(p.tell(plan_of(at("2027-04-10 07:30"))));
  CHECK(words_of(p, "called-off") ==
        std::vector<std::string>{"test called off once: first planned for Thursday 07:30; a cold"});
}

TEST_CASE("what was started in spite of is told with who agreed") {
  patient p;
  p.open_and_plan();
  go_to(p, "2027-04-06 07:30");
  p.answer_the_gate();
  REQUIRE(p.tell(reported_slip{"fast", at("2027-04-06 01:00"), how_known::told, "", "meal"}));
  REQUIRE(p.tell(reported_ready{gate_checks(), {"fast"}, "Ms Quill", releaser::laboratory}));
  CHECK(words_of(p, "started-not-kept") ==
        std::vector<std::string>{"started with this shown as not kept: Water only; agreed by Ms "
                                 "Quill (the laboratory)"});
}

TEST_CASE("a gate opened early says nothing of what was kept by waiting") {
  patient p;
  p.open_and_plan();
  go_to(p, "2027-04-06 07:15");
  p.answer_the_gate();
  REQUIRE(p.tell(reported_ready{gate_checks(), {"fast"}, ""}));
  REQUIRE(p.tell(sugar_set_aside{}));
  p.score(1);
  const bool waited = GENERATE(true, false);
  if (waited) go_to(p, "2027-04-06 07:31");
  p.breathe(1);
  const auto said = words_of(p, "started-not-kept");
  CHECK(said.empty() == waited);
  CHECK(words_of(p, "fast").empty() == waited);
}

TEST_CASE("somebody's word is wanted only below the least, and then always") {
  patient p;
  p.open_and_plan();
  go_to(p, "2027-04-06 07:30");
  p.answer_the_gate();
  SECTION("nine of twelve hours, at least eight: the person's own choice") {
    REQUIRE(p.tell(reported_slip{"fast", at("2027-04-05 22:30"), how_known::told, "", "meal"}));
    REQUIRE(p.tell(reported_ready{gate_checks(), {"fast"}, ""}));
    CHECK(words_of(p, "started-not-kept") ==
          std::vector<std::string>{"started with this shown as not kept: Water only"});
  }
  SECTION("less than the least") {
    REQUIRE(p.tell(reported_slip{"fast", at("2027-04-06 01:00"), how_known::told, "", "meal"}));
    CHECK(p.refused(reported_ready{gate_checks(), {"fast"}, ""}) == "no.below-least");
    const reported_ready nobodys{gate_checks(), {"fast"}, "Ms Quill"};
    CHECK(p.refused(nobodys) == "no.who-may-say");
    CHECK(p.refused(reported_ready{gate_checks(), {"fast"}, "Ms Quill", releaser::pharmacist}) ==
          "no.who-may-say");
    CHECK(p.refused(reported_ready{gate_checks(), {}, "Ms Quill", releaser::laboratory}) ==
          "no.below-least");
  }
}

TEST_CASE("every finding of the preparation names an event, but for what nobody told") {
  patient p;
  p.open_and_plan();
  answer(p, "antibiotics", washout_answer::last_on, "2027-03-17");
  go_to(p, "2027-04-05 22:00");
  REQUIRE(p.tell(reported_slip{"fast", at("2027-04-05 21:30"), how_known::told, "", "meal"}));
  REQUIRE(p.tell(reported_slip{"other", at("2027-04-05 21:30"), how_known::told, "a nap"}));
  const auto all = preparation_found(p.current(), p.clock.look(), at("2027-04-06 05:00"), london());
  REQUIRE_FALSE(all.empty());
  for (const finding& f : all) {
    INFO(f.words);
    CHECK((f.rule == "not-answered" || !f.events.empty()));
  }
}
