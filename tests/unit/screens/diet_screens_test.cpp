// Living through the preparation: what may be eaten, drunk and taken now, what is confirmed as it
// happens, what a slip means, calling off and the history.
// A screen is given a made-up view; its wish is looked at, never carried out.
#include "tests/unit/screens/diet_pages.hpp"

using namespace qb;
using namespace qb::test;

TEST_CASE("the first page answers what to eat, drink, take and do now") {
  stage s(draw_prepare, 480, 800);
  living_at(s, "2027-04-05 21:00");
  s.h.frames(1);
  CHECK(s.h.find("title")->name == "Drink water only until Tuesday 07:30");
  CHECK(s.h.value("now-1") == "Nothing");
  CHECK(s.h.value("now-2") == "Water");
  CHECK(s.h.value("now-3") == "As prescribed");
  CHECK(s.h.value("now-4") == "No smoking or vaping");
  CHECK(s.h.find("now-5") == nullptr);
  CHECK(s.h.find("medicines")->name.find("prescriber or pharmacist") != std::string::npos);
  s.m.go_to("2027-04-05 10:00");
  s.h.frames(1);
  CHECK(s.h.value("now-1") == "Only what is on the list");
  s.m.go_to("2027-04-01 10:00");
  s.h.frames(1);
  CHECK(s.h.value("now-1") == "As usual");
}

TEST_CASE("the end of eating is confirmed by a press, around the fast's beginning, once") {
  stage s(draw_prepare);
  living_at(s, "2027-04-05 17:00");
  CHECK_FALSE(s.press("confirm-fast")); // more than two hours before it begins
  s.m.go_to("2027-04-05 19:20");
  REQUIRE(s.press("confirm-fast"));
  REQUIRE(s.asked<reported_checklist>() != nullptr);
  CHECK(s.asked<reported_checklist>()->name == "fast");
  s.settle();
  CHECK_FALSE(s.press("confirm-fast"));
  CHECK(confirmation_of(s.m.s, "fast") != nullptr);
}

TEST_CASE("a press is offered, never forced: half the fast later it is offered no more") {
  stage s(draw_prepare);
  living_at(s, "2027-04-06 01:40");
  CHECK_FALSE(s.press("confirm-fast"));
  REQUIRE(s.press("open-evening"));
}

TEST_CASE("on waking a press confirms it, then the morning's list comes first") {
  stage s(draw_prepare);
  living_at(s, "2027-04-06 06:10");
  REQUIRE(s.press("confirm-awake"));
  s.settle();
  REQUIRE(s.press("open-morning"));
  CHECK(s.u.nav.open == side_page::morning);
}

TEST_CASE("in another zone the plan keeps its moment and says so") {
  stage s(draw_prepare);
  living_at(s, "2027-04-05 21:00");
  s.h.frames(1);
  CHECK(s.h.find("zone") == nullptr);
  s.m.s.planned->what.zone_name = "Asia/Tokyo";
  s.h.frames(1);
  REQUIRE(s.seek("zone") != nullptr);
  CHECK(s.h.find("zone")->name.find("Asia/Tokyo") != std::string::npos);
}

TEST_CASE("what fits the test is listed, and who finds nothing is sent to the laboratory") {
  stage s(draw_foods, 480, 800);
  living_at(s, "2027-04-05 10:00");
  s.h.frames(1);
  REQUIRE(s.h.find("eat-plain-diet") != nullptr);
  CHECK(s.h.find("eat-plain-diet")->name.find("White rice") != std::string::npos);
  CHECK(s.h.find("allergic")->name.find("told to avoid") != std::string::npos);
  REQUIRE(s.press("nothing-for-me"));
  CHECK(s.shown() == "foods-nothing");
  CHECK(s.h.value("laboratory") == s.m.lab.telephone);
}

TEST_CASE("a low blood sugar is treated at once, from the first page and from a slip") {
  stage s(draw_prepare);
  living_at(s, "2027-04-05 21:00");
  REQUIRE(s.press("other-things"));
  REQUIRE(s.press("other-low"));
  CHECK(s.u.nav.open == side_page::low_sugar);
  s.what = draw_slip;
  s.u = {};
  REQUIRE(s.press("open-low-sugar"));
  CHECK(s.u.nav.open == side_page::low_sugar);
  s.what = draw_low_sugar;
  s.h.frames(1);
  CHECK(s.h.find("title")->name == "Treat it at once, test or no test");
}

TEST_CASE("a meal at 21:30 is thanked for: 10 h are left, 12 h asked, tell the laboratory") {
  stage s(draw_slip, 480, 800);
  living_at(s, "2027-04-05 22:00");
  thanked(s, "2027-04-05 21:30", "fast", "meal");
  CHECK(s.shown() == "slip-thanks");
  CHECK(s.h.find("title")->name == "Thank you. It is written down");
  CHECK(s.h.find("means")->name == "That leaves 10 h of “Water only” before Tuesday 07:30.");
  CHECK(s.h.find("asks")->name == "The test asks for 12 h and needs at least 8 h.");
  CHECK(s.h.find("tell")->name == "Tell the laboratory.");
  CHECK(s.h.find("review") == nullptr);
  CHECK(s.h.find("move-words")->name == "A start at Tuesday 09:30 or later would fit this rule.");
}

TEST_CASE("at 7 h the thanks say not to start unless they agree, with their number") {
  stage s(draw_slip, 480, 800);
  living_at(s, "2027-04-06 06:10");
  thanked(s, "2027-04-06 00:30", "fast", "meal");
  s.h.frames(1);
  CHECK(s.h.find("review") != nullptr);
  CHECK(s.h.value("laboratory") == s.m.lab.telephone);
  REQUIRE(s.press("open-choose"));
  CHECK(s.u.nav.open == side_page::choose);
}

TEST_CASE("a slip outside every rule changes nothing, and nothing is asked of the person") {
  stage s(draw_slip, 480, 800);
  living_at(s, "2027-04-05 10:00");
  thanked(s, "2027-04-05 06:00", "plain-diet", "other-food");
  s.h.frames(1);
  CHECK(s.h.find("means")->name.find("Nothing changes") != std::string::npos);
  CHECK(s.h.find("tell") == nullptr);
}

TEST_CASE("a medicine is told by its kind, as far back as its rule looks") {
  stage s(draw_slip);
  living_at(s, "2027-04-05 21:07");
  s.u.nav.open = side_page::slip;
  REQUIRE(s.press("slip-medicine"));
  CHECK(s.shown() == "slip-medicine");
  REQUIRE(s.press("slip-antibiotics"));
  for (int day = 0; day < 19; ++day)
    REQUIRE(s.press("slip-day-less"));
  REQUIRE(s.press("next"));
  REQUIRE(s.press("tell"));
  REQUIRE(s.asked<reported_slip>() != nullptr);
  CHECK(s.asked<reported_slip>()->rule == "antibiotics");
  s.settle();
  s.h.frames(1);
  CHECK(s.h.find("means")->name == "That is 20 days before Tuesday 07:30.");
  CHECK(s.h.find("review") != nullptr);
}

TEST_CASE("the morning's list is told with what was ticked") {
  stage s(draw_morning);
  living_at(s, "2027-04-06 06:20");
  s.u.nav.open = side_page::morning;
  REQUIRE(s.press("morning-awake"));
  REQUIRE(s.press("morning-smoke-free"));
  REQUIRE(s.press("morning-mouth-rinse"));
  REQUIRE(s.press("done"));
  REQUIRE(s.asked<reported_checklist>() != nullptr);
  CHECK(s.asked<reported_checklist>()->name == "morning");
  CHECK(s.asked<reported_checklist>()->items ==
        std::vector<std::string>{"smoke-free", "awake", "mouth-rinse"});
}

TEST_CASE("the evening says which tubes stay empty and when the alarm clock is to ring") {
  stage s(draw_evening, 480, 800);
  living_at(s, "2027-04-05 21:00", 2); // lactose: seven tubes of ten
  REQUIRE(s.m.s.test->samples() == 7);
  s.h.frames(1);
  CHECK(s.h.find("evening-tubes")->value == "Tubes 8 to 10 of the kit stay empty");
  s.m.go_to("2027-04-05 21:01");
  REQUIRE(s.press("evening-alarm"));
  CHECK(s.h.find("evening-alarm")->name == "An ordinary alarm clock, set for 06:30");
}

TEST_CASE("the test is called off with a reason if one is given, and not by a slip of the finger") {
  stage s(draw_call_off);
  living_at(s, "2027-04-05 21:00");
  s.u.nav.open = side_page::call_off;
  SECTION("kept") {
    REQUIRE(s.press("back"));
    CHECK_FALSE(s.wished);
  }
  SECTION("called off") {
    s.write("call-off-reason", "A cold");
    REQUIRE(s.press("call-off"));
    REQUIRE(s.asked<plan_called_off>() != nullptr);
    CHECK(s.asked<plan_called_off>()->reason == "A cold");
    s.settle();
    CHECK(s.m.now.what == step::choose);
    CHECK(s.m.s.earlier_plans.back().called_off);
  }
  CHECK_FALSE(s.u.nav.is_side());
}

TEST_CASE("earlier starts are kept with when they were moved or called off") {
  stage s(draw_history, 480, 800);
  living_at(s, "2027-04-05 21:00");
  s.m.plan_for("2027-04-07 07:30");
  s.m.tell(plan_called_off{"A cold"});
  s.h.frames(1);
  CHECK(s.h.value("start-1") == "Tuesday 07:30");
  CHECK(s.h.find("start-1")->name == "Moved on Monday 21:00.");
  CHECK(s.h.find("start-2")->name == "Called off on Monday 21:00. You said: A cold");
}

TEST_CASE("every page of these days fits every promised window, in every protocol") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    stage s(draw_agree, width, height);
    for (const auto& pages : {home_pages(), slip_living_pages(), gate_living_pages()}) {
      for (const living_page& c : pages)
        look_through_leaves(s, c);
    }
    for (std::size_t test = 0; test < s.m.tests.size(); ++test) {
      for (const screen draw : {draw_prepare, draw_foods, draw_evening, draw_morning, draw_slip}) {
        for (const char* time : {"2027-04-05 10:00", "2027-04-05 21:00", "2027-04-06 06:40"})
          look_through_leaves(s, {std::to_string(test) + " at " + time, draw,
                                  [&](stage& on) { living_at(on, time, test); }});
      }
      for (const gate_page page : {gate_page::sugar, gate_page::morning, gate_page::things,
                                   gate_page::check, gate_page::rules})
        look_through_leaves(s, {std::to_string(test) + " gate", draw_gate,
                                [&](stage& on) { gate_at(on, "2027-04-06 07:40", page, test); }});
    }
  }
}

TEST_CASE("whom to call, and when, stands with the rest on one leaf of the smallest window") {
  stage s(draw_agree, 360, 640);
  std::size_t called = 0;
  for (const auto& pages : {slip_living_pages(), gate_living_pages()}) {
    for (const living_page& c : pages) {
      show_afresh(s, c.draw, c.set);
      if (s.h.find("laboratory") == nullptr) continue;
      INFO(c.name);
      ++called;
      CHECK(s.h.find("laboratory-hours") != nullptr);
      // What to do while nobody answers may stand on a second leaf; the number never without it.
      if (s.h.find("page-more") != nullptr) CHECK(s.seek("laboratory-outside") != nullptr);
    }
  }
  CHECK(called >= 10);
}
