// The gate before the drink: it opens only when all is checked, and the moment is held to the plan.
// A screen is given a made-up view; its wish is looked at, never carried out.
#include "tests/unit/screens/stage.hpp"

using namespace qb;
using test::planned;
using test::stage;

namespace {

const std::vector<std::string> listed{"tubes-ready", "power", "sound", "home-until-end"};

void pass_first_two(stage& s) {
  REQUIRE(s.press("begin-checks"));
  CHECK(s.h.value("packet") == "lactulose");
  REQUIRE(s.press("sugar-matches"));
  REQUIRE(s.press("well-today"));
  CHECK(s.shown() == "gate-things");
}

void tick_all(stage& s) {
  for (const std::string& id : listed) {
    CHECK_FALSE(s.press("ready"));
    REQUIRE(s.press(id));
  }
}

} // namespace

TEST_CASE("the gate opens only when every check is ticked, with all of them named") {
  stage s(draw_gate);
  planned(s.m);
  s.m.go_to("2027-04-06 07:40");
  s.h.frames(1);
  CHECK(s.h.find("late") != nullptr); // a longer fast is no breach
  pass_first_two(s);
  tick_all(s);
  REQUIRE(s.press("ready"));
  REQUIRE(s.asked<ready_told>() != nullptr);
  CHECK(s.asked<ready_told>()->checks == gate_checks());
}

TEST_CASE("a tick taken back closes the gate again") {
  stage s(draw_gate);
  planned(s.m);
  s.m.go_to("2027-04-06 07:40");
  pass_first_two(s);
  tick_all(s);
  REQUIRE(s.press("power"));
  CHECK_FALSE(s.press("ready"));
}

TEST_CASE("no page of the gate can be reached past the sugar and the question how one is") {
  stage s(draw_gate);
  planned(s.m);
  s.m.go_to("2027-04-06 07:40");
  s.u.page = 3;
  s.u.ticked = listed;
  CHECK(s.shown() == "gate");
  s.u.page = 5;
  CHECK(s.shown() == "gate");
}

TEST_CASE("before the planned time the gate waits, and what a start now cuts short is said") {
  stage s(draw_gate);
  planned(s.m);
  s.m.go_to("2027-04-06 06:50");
  pass_first_two(s);
  tick_all(s);
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "gate-early");
  CHECK(s.h.find("ready") == nullptr); // the headline says to wait; there is nothing to press
  CHECK(s.h.value("countdown") == "40:00");
  SECTION("the time comes") {
    s.m.go_to("2027-04-06 07:30");
    CHECK(s.shown() == "gate-now");
    REQUIRE(s.press("ready"));
    CHECK(s.asked<ready_told>() != nullptr);
  }
  SECTION("a little early is told to the laboratory") {
    REQUIRE(s.press("start-now"));
    CHECK(s.h.find("review") == nullptr);
    CHECK(s.h.value("short-1") == "11 h 20 min of 12 h");
    CHECK(s.h.find("laboratory")->name.find(s.m.lab.telephone) != std::string::npos);
    REQUIRE(s.press("ready"));
    CHECK(s.asked<ready_told>() != nullptr);
  }
  SECTION("waiting after all") {
    REQUIRE(s.press("start-now"));
    REQUIRE(s.press("wait"));
    CHECK(s.shown() == "gate-early");
    CHECK_FALSE(s.wished);
  }
}

TEST_CASE("under the least fast the gate says not to start unless the laboratory agrees") {
  stage s(draw_gate);
  planned(s.m);
  s.m.go_to("2027-04-05 23:50");
  s.u.open = "gate";
  s.u.page = 5;
  s.u.ticked = gate_checks();
  s.u.text["gate.ticked_at"] = std::to_string(to_unix_ms(s.m.at.wall));
  s.h.frames(1);
  REQUIRE(s.h.find("review") != nullptr);
  CHECK(s.h.value("short-1") == "4 h 20 min of 12 h");
  CHECK(s.h.value("laboratory") == s.m.lab.telephone);
  CHECK(s.h.find("ready")->name == s.m.t("gate.early.they-agreed"));
}

TEST_CASE("ticks of the evening before do not open the gate in the morning") {
  stage s(draw_gate);
  planned(s.m);
  s.m.go_to("2027-04-05 22:00");
  s.u.open = "gate";
  pass_first_two(s);
  tick_all(s);
  REQUIRE(s.press("next"));
  s.m.go_to("2027-04-06 07:29");
  CHECK(s.shown() == "gate-early"); // while it waits nothing is asked
  SECTION("the time comes") {
    s.m.go_to("2027-04-06 07:30");
    REQUIRE(s.m.at.wall == s.m.s.planned->what.start);
  }
  SECTION("an early start") {
    REQUIRE(s.press("start-now"));
  }
  CHECK(s.shown() == "gate-well");
  CHECK_FALSE(s.press("ready"));
  REQUIRE(s.press("well-today"));
  CHECK(s.shown() == "gate-things");
  s.m.go_to("2027-04-06 07:31");
  tick_all(s);
  REQUIRE(s.press("ready"));
  REQUIRE(s.asked<ready_told>() != nullptr);
}

TEST_CASE("another packet or a bad day stops before the drink, and moving costs nothing") {
  stage s(draw_gate);
  planned(s.m);
  s.m.go_to("2027-04-06 07:40");
  REQUIRE(s.press("begin-checks"));
  std::string way = "open-choose";
  SECTION("another packet") {
    REQUIRE(s.press("other-packet"));
    CHECK(s.shown() == "gate-other-sugar");
    way = "another-sugar";
  }
  SECTION("not well") {
    REQUIRE(s.press("sugar-matches"));
    REQUIRE(s.press("not-well"));
    CHECK(s.shown() == "gate-not-well");
    CHECK(s.h.find("emergency") != nullptr);
  }
  CHECK(s.h.value("laboratory") == s.m.lab.telephone);
  CHECK_FALSE(s.press("ready"));
  REQUIRE(s.press(way));
  CHECK(s.u.open == "choose");
  CHECK_FALSE(s.wished);
}

TEST_CASE("the sound can be tried, and without one the screen is to be watched") {
  stage s(draw_gate);
  planned(s.m);
  s.m.go_to("2027-04-06 07:40");
  pass_first_two(s);
  REQUIRE(s.press("try-sound"));
  CHECK(s.asked_outright<try_sound>());
  s.m.sound = false;
  s.h.frames(1);
  CHECK(s.h.find("try-sound") == nullptr);
  CHECK(s.h.find("sound")->name == s.m.t("gate.check.no-sound"));
}

TEST_CASE("at the gate what was told is spoken of, and more can be told") {
  stage s(draw_gate);
  planned(s.m);
  s.m.tell(slip_told{"fast", s.m.at.wall, how_known::told, ""});
  s.m.go_to("2027-04-06 07:40");
  s.h.frames(1);
  CHECK(s.h.find("slips") != nullptr);
  REQUIRE(s.press("open-slip"));
  CHECK(s.u.open == "slip");
}
