// One question in full: all of its words stand on its leaves, and an answer that takes an earlier
// one back is asked once more before it is a fact.
#include "tests/unit/screens/gate/held_stages.hpp"
#include "tests/unit/screens/panels.hpp"
#include "tests/unit/screens/plan/screening.hpp"

using namespace qb;
using namespace qb::test;

namespace {

void says_all_of(stage& s, const caution& c) {
  std::string words;
  each_element(s, [&](const element& e) { words += e.name + "\n"; });
  CHECK(words.find(c.question) != std::string::npos);
  for (const std::string& sign : c.recognise)
    CHECK(words.find(sign) != std::string::npos);
  CHECK(words.find(c.is_not) != std::string::npos);
}

const std::string rule = "ask-diabetes";

// At the question, from the page of what holds, after a yes.
void at_the_question(stage& s) {
  s.settles = true;
  nothing_stands(s);
  s.m.tell(answered(rule, caution_answer::yes));
  s.m.go_to("2027-04-06 07:45");
  REQUIRE(s.press("answer-anew"));
  REQUIRE(s.shown() == "held-question");
}

} // namespace

TEST_CASE("every question and its second asking fit, with all of their words") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    stage s(draw_agree, width, height);
    std::set<std::string> seen;
    for (std::size_t test = 0; test < s.m.tests.size(); ++test) {
      const protocol p = s.m.tests[test].test;
      for (const caution& c : questions_of(p)) {
        if (!seen.insert(c.question + c.is_not).second) continue;
        INFO(p.id << " " << c.why.rule << " at " << width);
        show_afresh(s, draw_screen, [&](stage& x) {
          nothing_stands(x, test);
          x.m.tell(answered(c.why.rule, caution_answer::yes));
        });
        REQUIRE(s.press("answer-anew"));
        CHECK(s.shown() == "held-question");
        look_at_leaves(s, c.why.rule);
        CHECK(offers_of(s) == std::set<std::string>{"none-true", "one-true", "not-sure", "back"});
        REQUIRE(s.press("none-true"));
        CHECK(s.shown() == "answer-again");
        CHECK_FALSE(s.wished);
        look_at_leaves(s, c.why.rule + " again");
        CHECK(offers_of(s) == std::set<std::string>{"again-now", "again-earlier"});
        REQUIRE(s.press("again-earlier"));
        REQUIRE(s.press("answer-anew"));
        says_all_of(s, c);
        REQUIRE(s.press("none-true"));
        says_all_of(s, c);
        CHECK_FALSE(s.wished);
      }
    }
  }
}

TEST_CASE("a no after a yes is told only after the second asking, and marked so") {
  stage s(draw_screen);
  at_the_question(s);
  CHECK(s.seek("said")->name == "You said: yes.");
  REQUIRE(s.press("none-true"));
  CHECK_FALSE(s.wished);
  CHECK(s.shown() == "answer-again");
  CHECK(s.seek("both")->name == "You said yes (Tuesday 07:40), and now no. Which one is right?");
  SECTION("it was meant") {
    REQUIRE(s.press("again-now"));
    const auto* told = s.asked<reported_caution>();
    REQUIRE(told != nullptr);
    CHECK(told->rule == rule);
    CHECK(told->answer == caution_answer::no);
    CHECK(told->asked_again);
    CHECK(s.m.now.what == step::gate);
    REQUIRE(find_noted_caution(s.m.s, rule)->earlier.size() == 1);
  }
  SECTION("it was not") {
    REQUIRE(s.press("again-earlier"));
    CHECK_FALSE(s.wished);
    CHECK(s.shown() == "held");
  }
  SECTION("half of it does not outlive another page") {
    REQUIRE(s.press("unwell"));
    REQUIRE(s.shown() == "unwell");
    REQUIRE(s.press("unwell-over"));
    REQUIRE(s.seek("red-flags-none") != nullptr);
    REQUIRE(s.press("red-flags-none"));
    REQUIRE(s.shown() == "held");
    REQUIRE(s.press("answer-anew"));
    CHECK(s.shown() == "held-question");
  }
}

TEST_CASE("not sure after a yes weighs less, and is asked once more as well") {
  stage s(draw_screen);
  at_the_question(s);
  REQUIRE(s.press("not-sure"));
  CHECK(s.shown() == "answer-again");
  REQUIRE(s.press("again-now"));
  REQUIRE(s.asked<reported_caution>() != nullptr);
  CHECK(s.asked<reported_caution>()->answer == caution_answer::unsure);
  CHECK(s.asked<reported_caution>()->asked_again);
  CHECK(s.shown() == "held");
}

TEST_CASE("the same answer again, or a weightier one, is told at once") {
  stage s(draw_screen);
  at_the_question(s);
  REQUIRE(s.press("one-true"));
  REQUIRE(s.asked<reported_caution>() != nullptr);
  CHECK_FALSE(s.asked<reported_caution>()->asked_again);
  CHECK(s.shown() == "held");
  CHECK(find_noted_caution(s.m.s, rule)->earlier.empty());
}

TEST_CASE("a yes said again does not undo that somebody said: not this test") {
  stage s(draw_screen);
  s.settles = true;
  nothing_stands(s);
  s.m.tell(refused_by(rule, "My diabetes nurse"));
  REQUIRE(s.press("answer-anew"));
  REQUIRE(s.press("one-true"));
  CHECK(s.shown() == "held");
  CHECK(s.m.now.held_by->what == hindrance_kind::refused);
  CHECK(offers_of(s).count("may-go-on") == 0);
}

TEST_CASE("before the plan as well: a no after a yes is asked once more") {
  stage s(draw_choose);
  at_the_questions(s);
  s.settles = true;
  s.u.nav.page = caution_page{rule};
  REQUIRE(s.press("one-true"));
  REQUIRE(s.press("wrong-press"));
  s.wished.reset();
  REQUIRE(s.press("none-true"));
  CHECK_FALSE(s.wished);
  CHECK(s.shown() == "answer-again");
  REQUIRE(s.press("again-now"));
  REQUIRE(s.asked<reported_caution>() != nullptr);
  CHECK(s.asked<reported_caution>()->asked_again);
}

TEST_CASE("a question of the morning that was true before is asked in full the next time") {
  stage s(draw_screen);
  s.settles = true;
  nothing_stands(s);
  s.m.tell(answered("morning-fever", caution_answer::yes));
  s.m.plan_for("2027-04-07 07:30");
  s.m.go_to("2027-04-07 07:20");
  packet_read(s);
  s.h.frames(1);
  s.u.nav.page = gate_page::things;
  CHECK(s.shown() == "gate-question");
  CHECK(s.h.find("title")->name == find_caution(*s.m.s.test, "morning-fever")->question);
  REQUIRE(s.press("none-true"));
  CHECK(s.shown() == "answer-again");
  REQUIRE(s.press("again-earlier")); // then it is asked as before
  CHECK_FALSE(s.wished);
  CHECK(s.shown() == "gate-question");
  REQUIRE(s.press("none-true"));
  REQUIRE(s.press("again-now"));
  CHECK(s.asked<reported_caution>()->asked_again);
  CHECK(s.shown() == "gate-morning");
  REQUIRE(s.press("none-true")); // the others, as a list
  CHECK(s.shown() == "gate-things");
}

TEST_CASE("a question begins on its first leaf and stands above its answers, wherever the one "
          "before it was answered") {
  stage s(draw_choose);
  at_the_questions(s);
  s.settles = true;
  std::size_t long_ones = 0;
  const auto all = first_test(s).cautions;
  for (const caution& c : all) {
    REQUIRE(s.shown() == "choose-cautions");
    INFO(c.why.rule);
    REQUIRE(s.h.find("title") != nullptr);
    CHECK(s.h.find("title")->name == c.question);
    CHECK(s.h.find("page-back") == nullptr);
    if (s.h.find("page-more") != nullptr) ++long_ones;
    REQUIRE(s.seek("none-true") != nullptr); // on whichever leaf: what it answers stands there too
    REQUIRE(s.h.find("title") != nullptr);
    CHECK(s.h.find("title")->name == c.question);
    REQUIRE(s.press("none-true"));
  }
  CHECK(long_ones > 1);
}
