// The days before and the gate: what each press asks for.
// A screen is given a made-up view; its wish is looked at, never carried out.
#include "tests/unit/screens/stage.hpp"

using namespace qb;
using test::drafted;
using test::planned;
using test::stage;

TEST_CASE("before anything holds, the screen says until when") {
  stage s(draw_prepare);
  planned(s.m);
  s.h.frames(1);
  CHECK(s.h.find("title")->name == "Nothing to do until Monday 07:30");
  CHECK(s.h.find("countdown") == nullptr);
  CHECK_FALSE(s.press("open-gate"));
  REQUIRE(s.press("other-things"));
  REQUIRE(s.press("other-plan"));
  CHECK(s.u.nav.open == side_page::timeline);
}

TEST_CASE("what holds now, what comes next and how long are said together") {
  stage s(draw_prepare);
  planned(s.m);
  s.m.go_to("2027-04-05 10:00");
  s.h.frames(1);
  CHECK(s.h.find("title")->name == "Eat plain food only until Monday 19:30");
  CHECK(s.h.value("now-1") == "Only what is on the list");
  CHECK(s.h.find("next")->name == "Monday 19:30: Water only.");
  CHECK(s.h.find("start")->name.find("in 21\u00A0h\u00A030") != std::string::npos);
  REQUIRE(s.press("open-slip"));
  CHECK(s.u.nav.open == side_page::slip);
}

TEST_CASE("in the evening the list comes first, after it the start") {
  stage s(draw_prepare);
  planned(s.m);
  s.m.go_to("2027-04-05 21:00");
  CHECK_FALSE(s.press("open-gate"));
  s.m.tell(reported_checklist{"fast", {}}); // its beginning was confirmed
  REQUIRE(s.press("open-evening"));
  CHECK(s.u.nav.open == side_page::evening);
  s.m.tell(reported_checklist{"evening", {"pen"}});
  REQUIRE(s.press("open-gate"));
  CHECK(s.u.nav.open == side_page::gate);
}

TEST_CASE("practice can jump, and the real preparation cannot") {
  stage s(draw_prepare);
  planned(s.m);
  CHECK_FALSE(s.press("jump"));
  s.m.practice = true;
  REQUIRE(s.press("jump"));
  CHECK(s.asked_outright<jump_ahead>());
}

TEST_CASE("changed medicines are asked again, all of them") {
  stage s(draw_prepare);
  planned(s.m);
  test::nothing_against(s.m);
  REQUIRE(s.press("other-things"));
  REQUIRE(s.press("other-medicines"));
  CHECK(s.u.nav.open == side_page::choose);
  for (const washout& w : s.m.s.test->washouts) {
    INFO(w.why.rule);
    CHECK(s.u.drafts.plan.medicines[w.why.rule].again);
  }
}

TEST_CASE("the whole plan shows past, now and next, and during the test") {
  stage s(draw_timeline);
  planned(s.m);
  s.m.go_to("2027-04-05 10:00");
  s.h.frames(1);
  CHECK(s.h.value("plan-1") == "Tuesday 9 March");
  CHECK(s.h.state("plan-1") == "next"); // without an answer nothing is ticked
  test::nothing_against(s.m);           // never taken: no row
  s.h.frames(1);
  CHECK(s.h.value("plan-1") == "Monday 07:30");
  CHECK(s.h.state("plan-1") == "now");
  CHECK(s.h.state("plan-2") == "next");
  REQUIRE(s.press("close"));
  CHECK_FALSE(s.u.nav.is_side());
}

TEST_CASE("the plan says of medicines what was told, and orders nobody to stop") {
  stage s(draw_timeline);
  planned(s.m);
  s.m.go_to("2027-03-20 10:00");
  test::nothing_against(s.m);
  s.m.tell(reported_washout{{"laxatives", washout_answer::cannot_stop, {}, false}, ""});
  s.m.tell(reported_washout{
      {"prokinetics", washout_answer::last_on, *parse_date("2027-03-10"), false}, ""});
  s.h.frames(1);
  CHECK(s.h.value("plan-1") == "Wednesday 10 March");
  CHECK(s.h.find("plan-1")->name ==
        s.m.t("screening.moment.last-dose", {{"name", "Medicines that speed up the gut"}}));
  CHECK(s.h.state("plan-1") == "past");
  CHECK(s.h.value("plan-2") == "Saturday 20 March");
  CHECK(s.h.find("plan-2")->name == s.m.t("screening.moment.ask", {{"name", "Laxatives"}}));
  CHECK(s.h.state("plan-2") == "now");
}

TEST_CASE("a slip is told with what, when and words, and thanked for once it is recorded") {
  stage s(draw_slip);
  planned(s.m);
  s.m.go_to("2027-04-05 21:07");
  s.u.nav.open = side_page::slip;
  REQUIRE(s.press("slip-fast-meal"));
  CHECK(s.shown() == "slip-when");
  CHECK(s.h.state("slip-time-more") == "at-end");
  REQUIRE(s.press("slip-time-less"));
  CHECK(s.h.value("slip-time") == "21:00");
  REQUIRE(s.press("slip-day-less"));
  CHECK(s.h.value("slip-day") == "Sunday 4 April");
  REQUIRE(s.press("slip-day-more"));
  REQUIRE(s.press("next"));
  s.write("slip-words", "A biscuit");
  REQUIRE(s.press("tell"));
  const reported_slip* told = s.asked<reported_slip>();
  REQUIRE(told != nullptr);
  CHECK(told->rule == "fast");
  CHECK(told->subject == "meal");
  CHECK(told->when == s.m.instant_of("2027-04-05 21:00"));
  CHECK(told->how == how_known::told);
  CHECK(told->words == "A biscuit");
  CHECK(s.shown() == "slip-words"); // no thanks for what the record has not
  s.m.tell(*told);
  CHECK(s.shown() == "slip-thanks");
  s.u.nav.page = {}; // whatever page the shell leaves it on
  CHECK(s.shown() == "slip-thanks");
  REQUIRE(s.press("done"));
  CHECK_FALSE(s.u.nav.is_side());
  CHECK(s.u.drafts.slip == slip_draft{});
}

TEST_CASE("after telling a slip the start can be moved") {
  stage s(draw_slip);
  planned(s.m);
  s.m.go_to("2027-04-05 21:07");
  s.u.nav.open = side_page::slip;
  REQUIRE(s.press("slip-other"));
  REQUIRE(s.press("next"));
  REQUIRE(s.press("tell"));
  s.m.tell(*s.asked<reported_slip>());
  REQUIRE(s.press("open-choose"));
  CHECK(s.u.nav.open == side_page::choose);
}

TEST_CASE("the evening's list is told with what was ticked") {
  stage s(draw_evening);
  planned(s.m);
  s.u.nav.open = side_page::evening;
  s.u.drafts.ticked = {"morning-questions"}; // of another list
  CHECK_FALSE(s.press("done"));
  REQUIRE(s.press("page-back"));
  REQUIRE(s.press("evening-sugar"));
  REQUIRE(s.press("evening-alarm"));
  REQUIRE(s.press("evening-alarm"));
  REQUIRE(s.press("evening-power"));
  REQUIRE(s.press("done"));
  REQUIRE(s.asked<reported_checklist>() != nullptr);
  CHECK(s.asked<reported_checklist>()->name == "evening");
  CHECK(s.asked<reported_checklist>()->items == std::vector<std::string>{"sugar", "power"});
  CHECK_FALSE(s.u.nav.is_side());
}

TEST_CASE("labels are written ahead one by one, all but date and time") {
  stage s(draw_labels_ahead);
  planned(s.m);
  s.u.nav.open = side_page::labels;
  REQUIRE(s.press("next"));
  for (int n = 1; n <= 10; ++n) {
    CHECK(s.shown() == "labels-" + std::to_string(n));
    CHECK(s.h.value("label-1") == std::to_string(n));
    CHECK(s.h.value("label-2") + " " + s.h.value("label-3") == s.m.s.person->name);
    CHECK(s.h.value("label-4") == "11 February 1957");
    CHECK(s.h.value("label-6") == "QB7-4410-2");
    CHECK(s.h.value("label-7") == s.m.t("labels.later"));
    REQUIRE(s.press(n < 10 ? "next" : "done"));
  }
  CHECK(s.u.nav.open == side_page::evening);
  CHECK(s.u.drafts.ticked == std::vector<std::string>{"labels"});
}
