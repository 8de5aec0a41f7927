// May this person take this test? What each answer to a caution records, where it leads, and that
// no start is offered while somebody is still to be asked.
#include "tests/unit/screens/plan/screening.hpp"

using namespace qb;
using namespace qb::test;

TEST_CASE("a caution is a plain question, and no is in the record at once") {
  stage s(draw_choose);
  at_the_questions(s);
  CHECK(s.shown() == "choose-cautions");
  CHECK(s.h.find("title")->name == first_test(s).cautions[0].question);
  CHECK(s.seek("place")->name == question_one(first_test(s)));
  REQUIRE(s.press("none-true"));
  REQUIRE(s.asked<reported_caution>() != nullptr);
  CHECK(s.asked<reported_caution>()->rule == first_test(s).cautions[0].why.rule);
  CHECK(s.asked<reported_caution>()->answer == caution_answer::no);
  s.settle();
  SECTION("the next question comes") {
    CHECK(s.h.find("title")->name == first_test(s).cautions[1].question);
    SECTION("and going back shows what was said") {
      REQUIRE(s.press("back"));
      CHECK(s.seek("said")->name == "You said: no.");
    }
  }
  SECTION("after a kill the first question without an answer comes") {
    s.u = {};
    drafted(s.u);
    CHECK(s.shown() == "choose-cautions");
    CHECK(s.h.find("title")->name == first_test(s).cautions[1].question);
  }
}

TEST_CASE("yes to something to ask about leads to whom and what to ask, large enough to read out") {
  stage s(draw_choose);
  at_the_questions(s);
  s.u.nav.page = caution_page{"ask-diabetes"};
  const bool unsure = GENERATE(false, true);
  REQUIRE(s.press(unsure ? "not-sure" : "one-true"));
  REQUIRE(s.asked<reported_caution>() != nullptr);
  CHECK(s.asked<reported_caution>()->answer ==
        (unsure ? caution_answer::unsure : caution_answer::yes));
  s.settle();
  CHECK(s.shown() == "choose-ask");
  CHECK(s.h.find("title")->name == "First ask your diabetes team");
  CHECK(s.h.find("why")->name == question_of(s, "ask-diabetes").text);
  CHECK(s.h.find("ask") != nullptr);
  // Not the laboratory's to answer: its number is not offered for theirs.
  CHECK(s.seek("their-number") != nullptr);
  CHECK(s.h.find("laboratory") == nullptr);
  CHECK(a_plan_is_refused(s));
}

TEST_CASE(
    "who asks later finds the plan waiting, also after a kill, and can answer the rest first") {
  stage s(draw_choose);
  yes_to_diabetes(s);
  REQUIRE(s.press("ask-later"));
  CHECK(s.shown() == "choose-waiting");
  CHECK(s.h.value("waits-ask-diabetes") == "Ask your diabetes team");
  s.u.nav.page = {};
  s.u.nav.close_side();
  CHECK(s.shown() == "choose-waiting");
  REQUIRE(s.press("go-on-asking"));
  CHECK(s.shown() == "choose-cautions");
  s.u.nav.page = {};
  REQUIRE(s.press("waits-ask-diabetes"));
  CHECK(s.shown() == "choose-ask");
  SECTION("a wrong press can be put right") {
    REQUIRE(s.press("wrong-press"));
    CHECK(s.shown() == "choose-cautions");
    CHECK(s.seek("said")->name == "You said: yes.");
    REQUIRE(s.press("none-true"));
    REQUIRE(s.press("again-now")); // asked once more
    s.settle();
    CHECK(find_noted_caution(s.m.s, "ask-diabetes")->what.answer == caution_answer::no);
    CHECK(s.shown() == "choose-cautions"); // on to the next
  }
  SECTION("the answer goes on, with who said so and their words") {
    REQUIRE(s.press("have-asked"));
    CHECK(s.shown() == "choose-answer");
    REQUIRE(s.press("allowed"));
    say_who(s, "diabetes");
    CHECK(s.shown() == "choose-said");
    s.write("ask.words", "half the dose");
    REQUIRE(s.press("write-down"));
    const reported_caution* told = s.asked<reported_caution>();
    REQUIRE(told != nullptr);
    CHECK(told->answer == caution_answer::yes);
    CHECK(told->outcome == asked_outcome::go_on);
    CHECK(told->who == "My nurse or care team");
    CHECK(told->words == "half the dose");
    s.settle();
    CHECK(s.shown() == "choose-cautions");
    CHECK(s.u.drafts.plan.advice == advice_draft{});
    CHECK_FALSE(is_open(first_test(s), question_of(s, "ask-diabetes"),
                        find_noted_caution(s.m.s, "ask-diabetes")->what));
  }
}

TEST_CASE(
    "whoever was asked may say that it is not this test, and somebody who may can say otherwise") {
  stage s(draw_choose);
  yes_to_diabetes(s);
  REQUIRE(s.press("have-asked"));
  REQUIRE(s.press("not-this-test"));
  say_who(s, "other");
  CHECK_FALSE(s.press("write-down")); // who it was comes first
  s.write("ask.who.other", "my sister the nurse");
  REQUIRE(s.press("write-down"));
  REQUIRE(s.asked<reported_caution>() != nullptr);
  CHECK(s.asked<reported_caution>()->outcome == asked_outcome::not_this_test);
  CHECK(s.asked<reported_caution>()->who == "my sister the nurse");
  s.settle();
  CHECK(s.shown() == "choose-stop");
  CHECK(s.h.find("sugar")->name == "Do not drink the test sugar.");
  REQUIRE(s.press("have-asked")); // again, and somebody who may say so does
  REQUIRE(s.press("allowed"));
  say_who(s, "doctor");
  REQUIRE(s.press("write-down"));
  REQUIRE(s.asked<reported_caution>() != nullptr);
  CHECK(s.asked<reported_caution>()->asked_again);
  s.settle();
  CHECK(find_noted_caution(s.m.s, "ask-diabetes")->earlier.size() == 1);
}

TEST_CASE("a test that is not for this person stops, and a wrong press can still be put right") {
  stage s(draw_choose);
  at_the_questions(s);
  REQUIRE(s.press("one-true")); // galactosaemia
  s.settle();
  CHECK(s.shown() == "choose-stop");
  CHECK(s.h.find("call")->name == "Please call the laboratory. They will help.");
  CHECK(s.h.value("laboratory") == s.m.lab.telephone);
  CHECK_FALSE(s.press("allowed"));
  CHECK(a_plan_is_refused(s));
  for (const plan_page page :
       {plan_page::unanswered, plan_page::hours, plan_page::start,
        plan_page::review}) { // nothing else is offered, whatever page was open
    s.u.nav.page = page;
    CHECK(s.shown() == "choose-stop");
  }
  REQUIRE(s.press("wrong-press"));
  s.wished.reset();
  REQUIRE(s.press("none-true"));
  CHECK_FALSE(s.wished); // one press does not put it right
  REQUIRE(s.press("again-now"));
  s.settle();
  CHECK(s.shown() == "choose-cautions");
}

TEST_CASE("not sure of what a sugar must never meet is a reason to ask, not an end") {
  stage s(draw_choose);
  at_the_questions(s);
  REQUIRE(s.press("not-sure"));
  s.settle();
  CHECK(s.shown() == "choose-ask");
  CHECK(s.seek("laboratory")->value == s.m.lab.telephone); // the laboratory is whom to ask
}

TEST_CASE("whom to ask names the laboratory where it may release the answer, and only there") {
  stage s(draw_choose);
  for (const offered_test& test : s.m.tests) {
    for (const caution& c : test.test.cautions) {
      INFO(test.id << " " << c.why.rule);
      const auto& may = c.may_release;
      const bool its =
          may.empty() || std::find(may.begin(), may.end(), releaser::laboratory) != may.end();
      CHECK((c.whom.find("the laboratory") != std::string::npos) == its);
    }
  }
}

TEST_CASE("no start is shown while somebody must be asked first") {
  stage s(draw_choose);
  SECTION("about a caution") {
    answered_but(s, diabetes(caution_answer::yes));
    CHECK(s.shown() == "choose-waiting");
  }
  SECTION("about a medicine that goes on") {
    answered_but(s, washed("laxatives", washout_answer::cannot_stop));
    CHECK(s.shown() == "choose-waiting");
  }
  SECTION("about what nobody knows") {
    answered_but(s, washed("colonoscopy", washout_answer::unknown));
    CHECK(s.shown() == "choose-waiting");
  }
  s.m.preview_of("2027-05-06 07:30");
  for (const plan_page page :
       {plan_page::unanswered, plan_page::hours, plan_page::start, plan_page::review,
        plan_page::fold, plan_page::days, plan_page::times}) {
    s.u.nav.page = page;
    CHECK(s.shown() == "choose-waiting");
  }
  CHECK(s.h.find("title")->name == "No date yet: first ask");
  CHECK_FALSE(s.press("next"));
}

TEST_CASE("without a kit code what another sugar must never meet is asked too") {
  stage s(draw_choose);
  at_the_questions(s);
  s.u.drafts.plan.test = "glucose-75g";
  s.u.drafts.plan.form = "powder";
  const auto& own = s.m.tests.at(1).test.cautions;
  CHECK(s.shown() == "choose-cautions");
  CHECK(s.seek("place")->name == "Question 1 of " + std::to_string(own.size() + 1));
  s.u.nav.page = caution_page{asked_cautions(s.m.get(), s.m.tests.at(1).test).back().why.rule};
  CHECK(s.shown() == "choose-cautions");
  CHECK(s.h.find("title") != nullptr);
  REQUIRE(s.press("one-true"));
  s.settle();
  CHECK(s.shown() == "choose-ask"); // which sugar it is can be asked; glucose is no harm
  CHECK(s.h.find("ask")->name.find("really glucose") != std::string::npos);
}

TEST_CASE("a kit's code picks the test") {
  stage s(draw_choose);
  s.m.open();
  s.m.introduce();
  s.m.tell(reported_kit{"FV-M2-4K7-9", "FV-4K7", "lactose-25g", *parse_date("2027-06-30")});
  SECTION("and the sugar is not asked") {
    CHECK(s.shown() == "choose-answerer"); // the first of all
    CHECK_FALSE(s.press("back"));
    REQUIRE(s.press("answers-carer"));
    CHECK(s.shown() == "choose-cautions");
    CHECK(s.u.drafts.answers == answerer::carer);
    CHECK(s.u.drafts.plan.test == "lactose-25g");
    CHECK(s.seek("place")->name == question_one(s.m.tests.at(2).test));
  }
  SECTION("another sugar in the packet is a matter for the laboratory") {
    choose_another_sugar(s.u);
    CHECK(s.shown() == "choose-ask-packet");
    REQUIRE(s.press("back"));
    CHECK_FALSE(s.u.nav.is_side());
  }
  SECTION("one that this program does not know as well") {
    s.m.tell(reported_kit{"FV-ZZ-4K7-9", "FV-4K7", "sorbitol-5g", *parse_date("2027-06-30")});
    CHECK(s.shown() == "choose-ask-kit");
  }
}

TEST_CASE("for another age the laboratory sets the test up") {
  stage s(draw_choose);
  at_the_questions(s);
  s.m.tell(reported_person{"Ottilie", *parse_date("2011-05-01"), "", "QB7", s.m.lab.name});
  CHECK(s.shown() == "choose-ask-age");
  CHECK(s.h.value("laboratory") == s.m.lab.telephone);
}
