// What is told in the middle of a test, and what the screen says by itself: of clocks that somebody
// set, of a restart, of a disk that refuses.
#include "tests/unit/screens/mending_stages.hpp"

using namespace qb;
using namespace qb::test;

TEST_CASE("a tube blown into twice is told with its last closing, and the reason is known") {
  stage s(draw_screen);
  to_after_three(s);
  let_pass(s, std::chrono::minutes{2});
  const instant was = s.m.s.of(sample_number(3)).taken->closed;
  choose_mishap(s, "mishap-twice");
  CHECK(s.h.find("title")->name.find("the last time") != std::string::npos);
  press_all(s, {"right-time-more"});
  REQUIRE(s.press("right-on"));
  const auto* fact = s.asked<corrected>();
  REQUIRE(fact != nullptr);
  CHECK(std::get<right_time>(fact->to).time == was + std::chrono::minutes{1});
  CHECK(fact->reason == "It was blown into twice");
}

TEST_CASE("going back from a tube blown into twice changes nothing, and the next reason is asked") {
  stage s(draw_screen);
  to_after_three(s);
  choose_mishap(s, "mishap-twice");
  press_all(s, {"back"});
  CHECK(s.shown() != "right-time");
  choose_mishap(s, "mishap-time");
  press_all(s, {"right-on", "right-time-less", "right-on"});
  CHECK(s.shown() == "right-why");
}

TEST_CASE("a broken tube is told at once, and no other takes its place") {
  stage s(draw_screen);
  to_after_three(s);
  choose_mishap(s, "mishap-broken");
  const auto* fact = s.asked<reported_comment>();
  REQUIRE(fact != nullptr);
  CHECK(fact->words == "Tube 3 is broken");
  s.settle();
  CHECK(s.shown() == "broken");
  CHECK(s.h.find("other")->name == "Do not blow into another tube in its place.");
}

TEST_CASE("when the drink was begun and when the glass was empty can be put right") {
  stage s(draw_screen);
  to_after_three(s);
  choose_mishap(s, "mishap-drink-time");
  press_all(s, {"right-began", "right-time-less", "right-time-less", "right-on"});
  REQUIRE(s.press("right-why-clock"));
  const auto* fact = s.asked<corrected>();
  REQUIRE(fact != nullptr);
  CHECK(fact->seq == s.m.s.drink_start->seq);
  CHECK(std::get<right_time>(fact->to).time ==
        s.m.s.drink_start->at.wall - std::chrono::minutes{2});
}

TEST_CASE("a reason that is on no list is given in own words") {
  stage s(draw_screen);
  to_after_three(s);
  choose_mishap(s, "mishap-time");
  press_all(s, {"right-on", "right-time-less", "right-on", "right-why-other"});
  CHECK(s.shown() == "right-own");
  CHECK(wrong_with(s.h) == std::vector<std::string>{});
  CHECK_FALSE(s.press("right-own-done")); // nothing is written yet
  s.write("right-own", "the radio said it");
  REQUIRE(s.press("right-own-done"));
  const auto* fact = s.asked<corrected>();
  REQUIRE(fact != nullptr);
  CHECK(fact->reason == "the radio said it");
}

TEST_CASE("food told in the test is thanked for, and the tubes go on") {
  stage s(draw_screen);
  to_after_three(s);
  choose_mishap(s, "mishap-slip");
  press_all(s, {"slip-fast-meal", "next"});
  REQUIRE(s.press("tell"));
  REQUIRE(s.asked<reported_slip>() != nullptr);
  s.settle();
  CHECK(s.shown() == "slip-thanks");
  CHECK(s.h.find("means")->name.find("Carry on with each tube") == 0);
  CHECK(s.h.find("open-choose") == nullptr); // nothing is moved any more
}

TEST_CASE("a clock that somebody set is said calmly until the next tube, and no due time moves") {
  stage s(draw_screen);
  to_rest(s);
  const duration left = *s.m.now.to_due;
  REQUIRE(s.shown() == "wait");
  CHECK(s.h.find("holds")->name == "No food, gum, smoking or sleep.");
  s.m.at.wall += std::chrono::hours{1}; // the wall clock alone
  s.m.now = what_now(s.m.s, s.m.at);
  CHECK(s.shown() == "wait");
  CHECK(s.h.find("holds")->name.find("was set 1 h ahead") != std::string::npos);
  CHECK(*s.m.now.to_due == left);
  s.m.at.wall -= std::chrono::hours{24 * 800};
  s.m.now = what_now(s.m.s, s.m.at);
  CHECK(s.shown() == "wait");
  CHECK(s.h.find("holds")->name.find("set to another day") != std::string::npos);
}

TEST_CASE("after a restart with a clock that nothing keeps it says what is sure") {
  stage s(draw_screen);
  to_rest(s);
  s.m.at.wall += std::chrono::minutes{3};
  s.m.at.boot = boot_time{std::chrono::minutes{2}};
  s.m.at.boot_id = "another";
  s.m.now = what_now(s.m.s, s.m.at);
  CHECK(s.shown() == "wait");
  CHECK(s.h.find("holds")->name.find("Tube 1 was at least 2 min") != std::string::npos);
  s.m.at.synchronised = true;
  s.m.now = what_now(s.m.s, s.m.at);
  CHECK(s.shown() == "wait");
  CHECK(s.h.find("holds")->name == "Device was off. Tube times stay.");
}

TEST_CASE("a drink told before tube 1 is no reason to say that the device was off") {
  stage s(draw_screen);
  to_tube_1(s);
  nothing_against(s.m);
  s.m.tell(reported_drink{s.m.at.wall - std::chrono::minutes{4}, how_known::told});
  s.m.tell(drink_ended{true});
  CHECK(s.shown() == "wait");
  CHECK(s.h.find("holds")->name == "No food, gum, smoking or sleep.");
}

TEST_CASE("whose test it is is confirmed also while a tube is due, and the tube is named there") {
  stage s(draw_screen);
  to_rest(s);
  s.u.nav.open = side_page::returned;
  s.settle();
  let_pass(s, *s.m.now.to_due + std::chrono::minutes{1});
  CHECK(s.shown() == "return");
  CHECK(s.h.find("due")->name.find("Tube 2 was due") == 0);
  REQUIRE(s.press("go-on"));
  CHECK(s.shown() == "breathe");
}

TEST_CASE("what to write on paper stands large while a disk refuses, in every window") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    stage s(draw_screen, width, height);
    to_rest(s);
    s.m.tell(reported_unwell{});
    s.m.tell(reported_red_flags{sample_number(1), {}});
    s.m.tell(unwell_over{});
    s.m.trouble = s.m.t("trouble.disk");
    s.m.paper_what = s.m.t("trouble.paper.closed", {{"n", "2"}});
    s.m.paper_time = "07:55";
    s.h.frames(2);
    CHECK(s.shown() == "wait");
    REQUIRE(s.h.find("paper") != nullptr);
    CHECK(s.h.find("paper")->value == "07:55");
    CHECK(s.h.find("trouble") != nullptr);
    CHECK(wrong_with(s.h) == std::vector<std::string>{});
  }
}

TEST_CASE("the trial asks to try a mishap before its last tube, and the way to it is there") {
  stage s(draw_screen);
  s.m.trial = true;
  to_rest(s);
  CHECK(s.shown() == "wait");
  CHECK(s.seek("try-this") == nullptr);
  s.m.s.samples.resize(2); // tube 2 is the last
  s.m.now = what_now(s.m.s, s.m.at);
  CHECK(s.shown() == "wait");
  REQUIRE(s.seek("try-this") != nullptr);
  REQUIRE(s.press("mishap"));
  CHECK(s.u.nav.open == side_page::mishap);
}
