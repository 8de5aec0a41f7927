// Agreeing, saying who one is, and making a plan: what each press asks for.
// A screen is given a made-up view; its wish is looked at, never carried out.
#include "app/assets/zone_files.hpp"
#include "app/patient/screens/plan_words.hpp"
#include "app/patient/shell/preview.hpp"
#include "tests/unit/screens/stage.hpp"

#include <algorithm>

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
  REQUIRE(s.press("no-code"));
  s.write("who.kit", "qb7");
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "who-laboratory");
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "who-check");
  REQUIRE(s.press("right"));
  const reported_person* told = s.asked<reported_person>();
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
  s.u.nav.page = who_page::birth;
  const auto complaint = [&](const std::string& typed) {
    s.u.drafts.who.birth.text = typed;
    s.h.frames(1);
    CHECK_FALSE(s.press("next"));
    CHECK(s.h.find("next")->name == s.m.t("who.birth.wrong"));
    return s.h.find("who.birth-hint")->name;
  };
  CHECK(complaint("31.2.1957") == s.m.t("who.birth.no-date"));
  CHECK(complaint("11021") == s.m.t("who.birth.no-date"));
  CHECK(complaint("11-02-57") == s.m.t("who.birth.no-date"));
  CHECK(complaint("02.04.2027") == s.m.t("who.birth.future"));
  s.u.drafts.who.birth.text = "02 04 2009";
  CHECK(s.shown() == "who-age");
  s.u.drafts.who.birth.text = "01042009"; // eighteen today
  CHECK(s.press("next"));
}

TEST_CASE("a correction begins with what was said, and leaving it forgets what was typed") {
  stage s(draw_who);
  planned(s.m);
  s.u.nav.open = side_page::who;
  CHECK(s.shown() == "who-check");
  REQUIRE(s.press("change"));
  REQUIRE(s.press("change-doctor"));
  s.write("who.doctor", "X");
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "who-check");
  SECTION("said") {
    REQUIRE(s.press("right"));
    CHECK(s.asked<reported_person>()->doctor == "Dr Isolde FennimoreX");
    CHECK_FALSE(s.u.nav.is_side());
  }
  SECTION("left") {
    REQUIRE(s.press("back"));
    CHECK_FALSE(s.u.nav.is_side());
    CHECK_FALSE(s.wished);
    s.u.nav.open = side_page::who;
    s.h.frames(1);
    CHECK(s.u.drafts.who.doctor.text == "Dr Isolde Fennimore");
  }
}

namespace {

// All questions answered, so that only day and time are open.
void ready_to_choose(stage& s) {
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  test::nothing_against(s.m);
  s.u.drafts.plan.home.days.any = true;
  s.u.drafts.plan.home.answered = true;
}

void look_at_it(stage& s) {
  s.m.preview = preview_plan(s.u.drafts.plan, s.m.s, s.m.tests, s.m.at.wall, s.m.z);
  s.h.frames(1);
}

} // namespace

TEST_CASE("a plan is made page by page from the packet to the start") {
  stage s(draw_choose);
  s.m.open();
  s.m.introduce();
  s.m.preview_of("2027-04-06 07:30");
  CHECK_FALSE(s.press("next"));
  REQUIRE(s.press("page-back"));
  REQUIRE(s.press("test-lactulose-10g"));
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "choose-form");
  REQUIRE(s.press("form-powder"));
  REQUIRE(s.press("next"));
  test::say_no_to_cautions(s);
  for (const washout& w : s.m.tests.front().test.washouts) {
    CHECK(s.shown() == "choose-" + w.why.rule);
    REQUIRE(s.press("dose-none"));
    REQUIRE(s.asked<reported_washout>() != nullptr);
    CHECK(s.asked<reported_washout>()->what.rule == w.why.rule);
    CHECK(s.asked<reported_washout>()->what.answer == washout_answer::never);
    s.settle();
  }
  CHECK(s.shown() == "choose-hours");
  REQUIRE(s.press("any-day"));
  CHECK(s.shown() == "choose-start");
  s.u.drafts.plan.date = *parse_date("2027-04-06");
  s.u.drafts.plan.minute = 450;
  look_at_it(s);
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

TEST_CASE("a start that is too soon cannot be used; the earliest can be taken") {
  stage s(draw_choose);
  ready_to_choose(s);
  s.m.preview_of("2027-04-02 07:30");
  CHECK_FALSE(s.press("next"));
  CHECK(s.h.find("too-soon")->name.find("Friday 10:15") != std::string::npos);
  CHECK(s.h.find("broken-1")->name == "Plain food only");
  CHECK(s.h.value("broken-1") == "2 h 30 min too soon");
  REQUIRE(s.press("use-earliest"));
  CHECK(s.u.drafts.plan.use_earliest);
}

TEST_CASE("for a time that clocks jump over the next one there is can be taken") {
  stage s(draw_choose);
  s.m.z = *load_zone("Europe/London");
  s.m.go_to("2027-03-20 10:00");
  ready_to_choose(s);
  s.u.drafts.plan.date = *parse_date("2027-03-28");
  s.u.drafts.plan.minute = 75;
  look_at_it(s);
  CHECK(s.h.find("problem") != nullptr);
  CHECK(s.h.find("use-earliest")->name == "Take 02:00");
  REQUIRE(s.press("use-earliest"));
  look_at_it(s);
  CHECK(s.u.drafts.plan.date == *parse_date("2027-03-28"));
  CHECK(s.u.drafts.plan.minute == 120);
  CHECK(s.m.preview.possible.has_value());
  CHECK_FALSE(s.m.preview.next_that_exists.has_value());
}

TEST_CASE("in the night the clocks go back the plan says which of the two times it means") {
  stage s(draw_choose);
  s.m.z = *load_zone("Europe/London");
  s.m.go_to("2027-10-29 10:00");
  ready_to_choose(s);
  s.u.drafts.plan.date = *parse_date("2027-10-31");
  s.u.drafts.plan.minute = 90;
  s.u.drafts.plan.which = fold::first;
  std::string words = "Sunday 01:30, before the clocks go back";
  SECTION("first") {
    REQUIRE(s.u.drafts.plan.which == fold::first);
  }
  SECTION("second") {
    s.u.drafts.plan.which = fold::second;
    words = "Sunday 01:30, after the clocks went back";
    REQUIRE(s.u.drafts.plan.date == *parse_date("2027-10-31"));
  }
  s.u.nav.page = plan_page::review;
  look_at_it(s);
  REQUIRE(s.m.preview.possible.has_value());
  CHECK(s.h.value("plan-4") == words);
  s.m.tell(plan_made{s.m.tests.front().canonical_text, "syrup", *s.m.preview.possible});
  CHECK(start_words(s.m.get(), s.m.s.planned->what.start) == words);
}

TEST_CASE("day and time are stepped, a quarter of an hour at a time, never before today") {
  stage s(draw_choose);
  ready_to_choose(s);
  s.u.drafts.plan.date = *parse_date("2027-04-01");
  s.u.drafts.plan.minute = 443;
  look_at_it(s);
  REQUIRE(s.press("day-less"));
  CHECK(s.u.drafts.plan.date == *parse_date("2027-04-01"));
  REQUIRE(s.press("day-more"));
  CHECK(s.u.drafts.plan.date == *parse_date("2027-04-02"));
  REQUIRE(s.press("time-more"));
  CHECK(s.u.drafts.plan.minute == 450);
  REQUIRE(s.press("time-less"));
  CHECK(s.u.drafts.plan.minute == 435);
}

TEST_CASE("a time that the clock shows twice is asked about on a page of its own") {
  stage s(draw_choose);
  ready_to_choose(s);
  s.m.preview_of("2027-04-06 07:30");
  s.m.preview.possible.reset();
  s.m.preview.twofold = true;
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "choose-fold");
  CHECK_FALSE(s.press("next"));
  REQUIRE(s.press("fold-second"));
  CHECK(s.u.drafts.plan.which == fold::second);
  s.m.preview_of("2027-04-06 07:30");
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "choose-review");
}

TEST_CASE("a start is moved from what was planned") {
  stage s(draw_choose);
  planned(s.m);
  s.u.drafts.answers = answerer::person;
  s.u.nav.open = side_page::choose;
  SECTION("what was never asked is asked first, and cancel leaves the plan") {
    CHECK(s.shown() == "choose-cautions");
    CHECK(s.u.drafts.plan.test == "lactulose-10g");
    CHECK(s.u.drafts.plan.form == "syrup");
    REQUIRE(s.press("cancel"));
    CHECK_FALSE(s.u.nav.is_side());
    CHECK_FALSE(s.wished);
  }
  SECTION("what was answered is not asked again") {
    test::nothing_against(s.m);
    CHECK(s.shown() == "choose-hours");
    REQUIRE(s.press("any-day"));
    look_at_it(s);
    CHECK(s.shown() == "choose-start");
    REQUIRE(s.press("cancel"));
    CHECK_FALSE(s.u.nav.is_side());
    CHECK_FALSE(s.wished);
  }
}

TEST_CASE("on the morning a start can be moved by some hours, since the fast was kept") {
  stage s(draw_choose);
  ready_to_choose(s);
  s.m.plan_for("2027-04-06 07:30");
  s.m.go_to("2027-04-06 06:30");
  s.u.nav.open = side_page::choose;
  s.u.drafts.plan.date = *parse_date("2027-04-06");
  s.u.drafts.plan.minute = 9 * 60;
  look_at_it(s);
  CHECK(s.m.preview.possible.has_value());
  SECTION("but not where it was told that something was eaten") {
    s.m.tell(
        reported_slip{"fast", s.m.instant_of("2027-04-05 22:00"), how_known::told, "", "meal"});
    look_at_it(s);
    CHECK_FALSE(s.m.preview.possible.has_value());
    REQUIRE(s.m.preview.broken.size() == 1);
    CHECK(s.m.preview.broken.front().rule == "fast");
    CHECK(s.m.preview.broken.front().later_by == std::chrono::hours{1});
    CHECK(s.m.preview.earliest_text == "Tuesday 10:00");
  }
}

TEST_CASE("where the device came to another zone both times of the start are shown") {
  test::made_view m;
  m.z = *load_zone("Europe/Berlin");
  planned(m);
  const zone berlin = m.z;
  m.z = *load_zone("Europe/London");
  m.go_to("2027-04-01 10:00");
  const instant start = m.s.planned->what.start;
  m.plan_zone = &berlin;
  CHECK(start_words(m.get(), start) == "Tuesday 06:30 here, 07:30 in Europe/Berlin");
  const auto moments = plan_moments(m.get(), *m.s.test, m.s.planned->what);
  CHECK(std::any_of(moments.begin(), moments.end(), [&](const moment& shown) {
    return shown.time == "Tuesday 06:30 here, 07:30 in Europe/Berlin";
  }));
  const zone kiritimati = *load_zone("Pacific/Kiritimati");
  m.plan_zone = &kiritimati;
  CHECK(start_words(m.get(), start) == "Tuesday 06:30 here, 19:30 in Pacific/Kiritimati");
  const zone los_angeles = *load_zone("America/Los_Angeles");
  m.plan_zone = &los_angeles;
  CHECK(start_words(m.get(), start) == "Tuesday 06:30 here, Monday 22:30 in America/Los Angeles");
  const zone lisbon = *load_zone("Europe/Lisbon");
  m.plan_zone = &lisbon;
  CHECK(start_words(m.get(), start) == "Tuesday 06:30");
}
