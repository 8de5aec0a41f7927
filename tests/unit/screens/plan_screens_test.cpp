// Agreeing, saying who one is, and making a plan: what each press asks for.
// A screen is given a made-up view; its wish is looked at, never carried out.
#include "app/headless/zone_files.hpp"
#include "app/patient/window/preview.hpp"
#include "tests/unit/screens/stage.hpp"

using namespace qb;
using test::drafted;
using test::planned;
using test::stage;

TEST_CASE("agreeing asks for a test to be opened, and nothing else does") {
  stage s(draw_agree);
  REQUIRE(s.press("next"));
  CHECK_FALSE(s.wished);
  CHECK(s.shown() == "agree-kept");
  REQUIRE(s.press("agree"));
  REQUIRE(s.asked<opened>() != nullptr);
  CHECK(s.asked<opened>()->test_id.empty());
}

TEST_CASE("practice is offered before agreeing only where it can be had") {
  stage s(draw_agree);
  REQUIRE(s.press("practise"));
  CHECK(s.asked_outright<begin_practice>());
  s.m.can_practise = false;
  CHECK_FALSE(s.press("practise"));
}

TEST_CASE("the person is asked one thing a page, and told as typed") {
  stage s(draw_who);
  s.m.open();
  CHECK(s.shown() == "who-name");
  CHECK_FALSE(s.press("next"));
  s.write("who.name", "Marguerite Fennimore");
  REQUIRE(s.press("next"));
  s.write("who.birth", "11.2.1957");
  CHECK(s.h.find("birth-words")->name.find("11 February 1957") != std::string::npos);
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "who-doctor");
  REQUIRE(s.press("next")); // left empty
  s.write("who.kit", "qb7");
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "who-laboratory");
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "who-check");
  REQUIRE(s.press("right"));
  const person_told* told = s.asked<person_told>();
  REQUIRE(told != nullptr);
  CHECK(told->name == "Marguerite Fennimore");
  CHECK(date_text(told->birth_date) == "1957-02-11");
  CHECK(told->doctor.empty());
  CHECK(told->kit_number == "QB7");
  CHECK(told->laboratory == s.m.lab.name);
}

TEST_CASE("a birth date that cannot be is refused in words") {
  stage s(draw_who);
  s.m.open();
  s.u.page = 2;
  const auto complaint = [&](const std::string& typed) {
    s.u.text["who.birth"] = typed;
    s.h.frames(1);
    CHECK_FALSE(s.press("next"));
    CHECK(s.h.find("next")->name == s.m.t("who.birth.wrong"));
    return s.h.find("who.birth-hint")->name;
  };
  CHECK(complaint("31.2.1957") == s.m.t("who.birth.no-date"));
  CHECK(complaint("11021") == s.m.t("who.birth.no-date"));
  CHECK(complaint("11-02-57") == s.m.t("who.birth.no-date"));
  CHECK(complaint("02.04.2027") == s.m.t("who.birth.future"));
  CHECK(complaint("02 04 2009") == s.m.t("who.birth.young", {{"n", "18"}}));
  s.u.text["who.birth"] = "01042009"; // eighteen today
  CHECK(s.press("next"));
}

TEST_CASE("a correction begins with what was said, and leaving it forgets what was typed") {
  stage s(draw_who);
  planned(s.m);
  s.u.open = "who";
  CHECK(s.shown() == "who-check");
  REQUIRE(s.press("change"));
  REQUIRE(s.press("change-doctor"));
  s.write("who.doctor", "X");
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "who-check");
  SECTION("said") {
    REQUIRE(s.press("right"));
    CHECK(s.asked<person_told>()->doctor == "Dr Isolde FennimoreX");
    CHECK(s.u.open.empty());
  }
  SECTION("left") {
    REQUIRE(s.press("back"));
    CHECK(s.u.open.empty());
    CHECK_FALSE(s.wished);
    s.u.open = "who";
    s.h.frames(1);
    CHECK(s.u.text["who.doctor"] == "Dr Isolde Fennimore");
  }
}

TEST_CASE("a plan is made page by page from the packet to the start") {
  stage s(draw_choose);
  s.m.open();
  s.m.introduce();
  s.m.preview_of("2027-04-06 07:30");
  CHECK_FALSE(s.press("next"));
  REQUIRE(s.press("test-lactulose-10g"));
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "choose-form");
  REQUIRE(s.press("form-powder"));
  REQUIRE(s.press("next"));
  test::say_no_to_cautions(s);
  CHECK(s.u.text["plan.cautions"] == "lactulose-10g");
  CHECK(s.u.text["plan.cautions.allowed"].empty());
  for (const std::string rule : {"antibiotics", "laxatives", "prokinetics"}) {
    CHECK(s.shown() == "choose-" + rule);
    REQUIRE(s.press("dose-none"));
    REQUIRE(s.press("next"));
    CHECK(s.u.text[dose_key(rule)] == "none");
  }
  CHECK(s.shown() == "choose-start");
  s.u.text[draft::date] = "2027-04-06";
  s.u.text[draft::minute] = "450";
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "choose-review");
  CHECK_FALSE(s.wished);
  REQUIRE(s.press("use-plan"));
  const plan_made* made = s.asked<plan_made>();
  REQUIRE(made != nullptr);
  CHECK(made->form == "powder");
  CHECK(made->protocol_text == s.m.tests.front().canonical_text);
  CHECK(made->what.start == s.m.instant_of("2027-04-06 07:30"));
}

TEST_CASE("after a kill the plan goes on at the first page without an answer") {
  stage s(draw_choose);
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  CHECK(s.shown() == "choose-cautions");
  s.u.text["plan.cautions"] = "glucose-75g"; // answered for another test
  CHECK(s.shown() == "choose-cautions");
  s.u.text["plan.cautions"] = "lactulose-10g";
  CHECK(s.shown() == "choose-antibiotics");
}

TEST_CASE("where a caution may be true, planning waits for somebody's yes") {
  stage s(draw_choose);
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  const auto& all = s.m.tests.front().test.cautions;
  REQUIRE(s.press("none-true"));
  REQUIRE(s.press("one-true")); // the second
  CHECK(s.shown() == "choose-ask");
  CHECK(s.h.value("laboratory") == s.m.lab.telephone);
  REQUIRE(s.press("back"));
  CHECK(s.shown() == "choose-cautions");
  CHECK(s.h.find(all[1].why.rule) != nullptr);
  REQUIRE(s.press("one-true"));
  REQUIRE(s.press("allowed"));
  // One yes does not answer the rest, and a kill does not begin anew.
  CHECK(s.u.text["plan.cautions"].empty());
  s.u.page = 0;
  s.h.frames(1);
  CHECK(s.h.find(all[2].why.rule) != nullptr);
  for (std::size_t i = 2; i < all.size(); ++i)
    REQUIRE(s.press("none-true"));
  CHECK(s.shown() == "choose-antibiotics");
  CHECK(s.u.text["plan.cautions.allowed"] == "yes");
}

TEST_CASE("a medicine still taken leads to whom to ask, never to an order to stop") {
  stage s(draw_choose);
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  s.u.text["plan.cautions"] = "lactulose-10g";
  SECTION("antibiotics are finished first") {
    REQUIRE(s.press("dose-still"));
    REQUIRE(s.press("next"));
    CHECK(s.shown() == "choose-advice-antibiotics");
    CHECK(s.h.find("rule")->name.find("Never stop it for the test") != std::string::npos);
    s.u.page = 0; // a kill: the question is not answered by that
    CHECK(s.shown() == "choose-antibiotics");
    REQUIRE(s.press("next"));
    REQUIRE(s.press("know-day"));
    CHECK(s.shown() == "choose-dose-antibiotics");
    REQUIRE(s.press("dose-day-more")); // its last day may lie ahead
    CHECK(s.u.text[dose_key("antibiotics")] == "2027-04-02");
    REQUIRE(s.press("next"));
    CHECK(s.shown() == "choose-laxatives");
  }
  SECTION("a laxative goes on unless the prescriber agrees") {
    s.u.page = 101;
    REQUIRE(s.press("dose-still"));
    REQUIRE(s.press("next"));
    CHECK(s.shown() == "choose-advice-laxatives");
    CHECK(s.h.find("rule")->name.find("keep taking them") != std::string::npos);
    REQUIRE(s.press("next"));
    CHECK(s.u.text[dose_key("laxatives")] == "still");
  }
  SECTION("a last dose is not later than today") {
    s.u.page = 101;
    REQUIRE(s.press("dose-last"));
    REQUIRE(s.press("next"));
    REQUIRE(s.press("dose-day-more"));
    CHECK(s.u.text[dose_key("laxatives")] == "2027-04-01");
    REQUIRE(s.press("dose-day-less"));
    CHECK(s.u.text[dose_key("laxatives")] == "2027-03-31");
  }
}

TEST_CASE("a start that is too soon cannot be used; the earliest can be taken") {
  stage s(draw_choose);
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  s.u.page = 4;
  s.m.preview_of("2027-04-02 07:30");
  CHECK_FALSE(s.press("next"));
  CHECK(s.h.find("too-soon")->name.find("Friday 10:00") != std::string::npos);
  CHECK(s.h.find("reason")->name == s.m.t("choose.why.plain-diet", {{"span", "24 h"}}));
  REQUIRE(s.press("use-earliest"));
  CHECK(s.u.text["plan.use_earliest"] == "yes");
}

TEST_CASE("for a time that clocks jump over the next one there is can be taken") {
  stage s(draw_choose);
  s.m.z = *load_zone("Europe/London");
  s.m.go_to("2027-03-20 10:00");
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  s.u.text["plan.cautions"] = "lactulose-10g";
  s.u.text[draft::date] = "2027-03-28";
  s.u.text[draft::minute] = "75";
  s.u.page = 4;
  const auto look = [&] { s.m.preview = preview_plan(s.u.text, s.m.tests, s.m.at.wall, s.m.z); };
  look();
  s.h.frames(1);
  CHECK(s.h.find("problem") != nullptr);
  CHECK(s.h.find("use-earliest")->name == "Take 02:00");
  REQUIRE(s.press("use-earliest"));
  look();
  CHECK(s.u.text[draft::date] == "2027-03-28");
  CHECK(s.u.text[draft::minute] == "120");
  CHECK(s.m.preview.possible.has_value());
  CHECK_FALSE(s.m.preview.next_that_exists.has_value());
}

TEST_CASE("in the night the clocks go back the plan says which of the two times it means") {
  stage s(draw_choose);
  s.m.z = *load_zone("Europe/London");
  s.m.go_to("2027-10-29 10:00");
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  s.u.text["plan.cautions"] = "lactulose-10g";
  s.u.text[draft::date] = "2027-10-31";
  s.u.text[draft::minute] = "90";
  s.u.text[draft::fold] = "first";
  std::string words = "Sunday 01:30, before the clocks go back";
  SECTION("first") {
    REQUIRE(s.u.text[draft::fold] == "first");
  }
  SECTION("second") {
    s.u.text[draft::fold] = "second";
    words = "Sunday 01:30, after the clocks went back";
    REQUIRE(s.u.text[draft::date] == "2027-10-31");
  }
  s.m.preview = preview_plan(s.u.text, s.m.tests, s.m.at.wall, s.m.z);
  REQUIRE(s.m.preview.possible.has_value());
  s.u.page = 5;
  for (const std::string rule : {"antibiotics", "laxatives", "prokinetics"})
    s.u.text[dose_key(rule)] = "none";
  s.h.frames(1);
  CHECK(s.h.value("plan-4") == words);
  s.m.tell(plan_made{s.m.tests.front().canonical_text, "syrup", *s.m.preview.possible});
  s.what = draw_prepare;
  s.u = {};
  s.h.frames(1);
  CHECK(s.h.value("times-2") == words);
}

TEST_CASE("day and time are stepped, a quarter of an hour at a time, never before today") {
  stage s(draw_choose);
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  s.u.page = 4;
  s.u.text[draft::date] = "2027-04-01";
  s.u.text[draft::minute] = "443";
  REQUIRE(s.press("day-less"));
  CHECK(s.u.text[draft::date] == "2027-04-01");
  REQUIRE(s.press("day-more"));
  CHECK(s.u.text[draft::date] == "2027-04-02");
  REQUIRE(s.press("time-more"));
  CHECK(s.u.text[draft::minute] == "450");
  REQUIRE(s.press("time-less"));
  CHECK(s.u.text[draft::minute] == "435");
}

TEST_CASE("a time that the clock shows twice is asked about on a page of its own") {
  stage s(draw_choose);
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  s.u.page = 4;
  s.m.preview.twofold = true;
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "choose-fold");
  CHECK_FALSE(s.press("next"));
  REQUIRE(s.press("fold-second"));
  CHECK(s.u.text[draft::fold] == "second");
  s.m.preview_of("2027-04-06 07:30");
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "choose-review");
}

TEST_CASE("a start is moved from what was planned") {
  stage s(draw_choose);
  planned(s.m);
  s.u.open = "choose";
  CHECK(s.shown() == "choose-antibiotics"); // medicines may have changed; the test has not
  CHECK(s.u.text[draft::test] == "lactulose-10g");
  CHECK(s.u.text[draft::form] == "syrup");
  REQUIRE(s.press("cancel"));
  CHECK(s.u.open.empty());
  s.u.open = "choose";
  s.u.page = 4;
  REQUIRE(s.press("back"));
  CHECK(s.u.open.empty());
  CHECK_FALSE(s.wished);
}
