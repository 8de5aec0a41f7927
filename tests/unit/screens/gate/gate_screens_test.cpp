// The gate before the drink: it opens only when all is checked, and the moment is held to the plan.
// A screen is given a made-up view; its wish is looked at, never carried out.
#include "tests/unit/screens/diet_pages.hpp"

using namespace qb;
using test::fresh_morning;
using test::gate_at;
using test::living_at;
using test::packet_read;
using test::slip_before;
using test::stage;

namespace {

const std::vector<std::string> listed{"tubes-ready", "power", "sound", "home-until-end"};

void pass_packet_and_morning(stage& s) {
  s.settles = true;
  REQUIRE(s.press("begin-checks"));
  CHECK(s.h.value("packet") == "lactulose");
  REQUIRE(s.press("sugar-matches"));
  REQUIRE(s.asked<reported_packet>() != nullptr);
  CHECK(s.shown() == "gate-morning");
  REQUIRE(s.press("none-true"));
  REQUIRE(s.asked_outright<record_all>());
  CHECK(s.shown() == "gate-things");
  s.settles = false;
  s.wished.reset();
}

void tick_all(stage& s) {
  for (const std::string& id : listed) {
    CHECK_FALSE(s.press("next"));
    REQUIRE(s.press(id));
  }
}

} // namespace

TEST_CASE("the gate opens only when every check is ticked, with all of them named") {
  stage s(draw_gate);
  living_at(s, "2027-04-06 07:40");
  s.h.frames(1);
  CHECK(s.h.find("late") != nullptr); // a longer fast is no breach
  pass_packet_and_morning(s);
  tick_all(s);
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "gate-check");
  REQUIRE(s.press("ready"));
  REQUIRE(s.asked<reported_ready>() != nullptr);
  CHECK(s.asked<reported_ready>()->checks == gate_checks());
  CHECK(s.asked<reported_ready>()->not_kept.empty());
}

TEST_CASE("a tick taken back closes the gate again") {
  stage s(draw_gate);
  living_at(s, "2027-04-06 07:40");
  pass_packet_and_morning(s);
  tick_all(s);
  REQUIRE(s.press("power"));
  CHECK_FALSE(s.press("next"));
}

TEST_CASE("no page of the gate can be reached past the packet and the questions") {
  for (const gate_page page :
       {gate_page::morning, gate_page::things, gate_page::time, gate_page::check, gate_page::agreed,
        gate_page::rules, gate_page::ask}) {
    stage s(draw_gate);
    living_at(s, "2027-04-06 07:40");
    const auto shown_at = [&] {
      s.u.nav.page = page;
      s.u.drafts.ticked = listed;
      return s.shown();
    };
    CHECK(shown_at() == "gate");
    packet_read(s);
    CHECK(shown_at() == "gate-morning");
    s.m.s.cautions.erase(s.m.s.cautions.begin());
    CHECK(shown_at() == "gate-question");
    fresh_morning(s);
    CHECK(shown_at() == "gate-question");
  }
}

TEST_CASE("a no to the morning's questions is one fact a question") {
  stage s(draw_gate);
  living_at(s, "2027-04-06 07:40");
  pass_packet_and_morning(s);
  for (const caution& c : s.m.s.test->morning) {
    const noted_caution* told = find_noted_caution(s.m.s, c.why.rule);
    REQUIRE(told != nullptr);
    CHECK(told->what.answer == caution_answer::no);
  }
}

TEST_CASE("before the planned time the gate waits, and what a start now cuts short is said") {
  stage s(draw_gate);
  living_at(s, "2027-04-06 06:50");
  pass_packet_and_morning(s);
  tick_all(s);
  REQUIRE(s.press("next"));
  CHECK(s.shown() == "gate-early");
  CHECK(s.h.find("ready") == nullptr); // the headline says to wait; there is nothing to press
  CHECK(s.h.value("countdown") == "40:00");
  SECTION("the time comes") {
    s.m.go_to("2027-04-06 07:30");
    CHECK(s.shown() == "gate-check");
    REQUIRE(s.press("ready"));
    CHECK(s.asked<reported_ready>() != nullptr);
  }
  SECTION("a little early is told to the laboratory, and recorded as not kept") {
    REQUIRE(s.press("start-now"));
    CHECK(s.shown() == "gate-check-short");
    CHECK(s.h.find("review") == nullptr);
    CHECK(s.h.value("short-1") == "11 h 20 min of 12 h");
    CHECK(s.h.value("laboratory") == s.m.lab.telephone);
    REQUIRE(s.press("ready"));
    REQUIRE(s.asked<reported_ready>() != nullptr);
    CHECK(s.asked<reported_ready>()->not_kept ==
          std::vector<std::string>{"fast", "smoke-free", "awake"});
    CHECK(s.asked<reported_ready>()->agreed.empty());
  }
  SECTION("waiting after all") {
    REQUIRE(s.press("start-now"));
    REQUIRE(s.press("wait"));
    CHECK(s.shown() == "gate-early");
    CHECK_FALSE(s.wished);
  }
}

TEST_CASE("a meal at 21:30 is told to the laboratory, and the test may start") {
  stage s(draw_gate);
  gate_at(s, "2027-04-06 07:30", gate_page::check);
  slip_before(s, "2027-04-05 21:30");
  CHECK(s.shown() == "gate-check-short");
  CHECK(s.h.value("short-1") == "10 h of 12 h");
  CHECK(s.h.find("review") == nullptr);
  REQUIRE(s.press("ready"));
  REQUIRE(s.asked<reported_ready>() != nullptr);
  CHECK(s.asked<reported_ready>()->not_kept == std::vector<std::string>{"fast"});
}

TEST_CASE("under the least fast the gate says not to start unless they agree (NAC 2017 T1)") {
  stage s(draw_gate);
  gate_at(s, "2027-04-05 23:50", gate_page::check);
  s.h.frames(1);
  REQUIRE(s.h.find("review") != nullptr);
  CHECK(s.h.value("short-1") == "4 h 20 min of 12 h");
  CHECK(s.h.state("short-1") == "needs-you");
  REQUIRE(s.seek("least-fast") != nullptr);
  CHECK(s.h.find("least-fast")->name ==
        "The test needs at least 8 h. You have that from Tuesday 03:30. "
        "Before then only the laboratory can say yes.");
  CHECK(s.seek("laboratory")->value == s.m.lab.telephone);
  CHECK_FALSE(s.press("ready"));
  REQUIRE(s.press("they-agreed"));
  CHECK(s.shown() == "gate-agreed");
  CHECK_FALSE(s.press("ready")); // not without a name
  CHECK(s.h.find("start-anyway") == nullptr);
  CHECK_FALSE(s.wished);
  s.write("gate-who", "Ms Quill");
  CHECK_FALSE(s.press("ready")); // not without what they are
  CHECK(s.h.find("releaser-pharmacist") == nullptr);
  REQUIRE(s.press("releaser-laboratory"));
  REQUIRE(s.press("ready"));
  REQUIRE(s.asked<reported_ready>() != nullptr);
  CHECK(s.asked<reported_ready>()->agreed == "Ms Quill");
  CHECK(s.asked<reported_ready>()->said_by == releaser::laboratory);
  CHECK(s.asked<reported_ready>()->not_kept.front() == "fast");
}

TEST_CASE("every rule is listed by how it stands: not kept, seen, on the person's word") {
  stage s(draw_gate, 480, 800);
  living_at(s, "2027-04-05 19:25");
  s.m.tell(reported_checklist{"fast", {}});
  s.m.go_to("2027-04-06 07:40");
  packet_read(s);
  fresh_morning(s);
  slip_before(s, "2027-04-06 07:20", "awake", "exercise");
  s.u.nav.page = gate_page::rules;
  CHECK(s.shown() == "gate-rules");
  CHECK(s.h.find("not-kept-1")->name == "Stay awake, no exercise");
  CHECK(s.h.value("not-kept-1") == "20 min of 1 h");
  CHECK(s.h.find("by-record-1")->name == "Your age");
  CHECK(s.h.find("by-record-2")->name == "Water only");
}

TEST_CASE("another test's kit opens the gate for nobody") {
  stage s(draw_gate);
  gate_at(s, "2027-04-06 07:40", gate_page::check);
  s.m.s.kit = reported_kit{"code", "QB7", "glucose-75g", *parse_date("2027-12-31")};
  CHECK(s.shown() == "gate-check-short");
  CHECK_FALSE(s.press("they-agreed"));
  CHECK_FALSE(s.press("ready"));
  s.u.nav.page = gate_page::agreed;
  CHECK(s.shown() == "gate-check-short");
}

TEST_CASE("answers of the evening before do not open the gate in the morning") {
  stage s(draw_gate);
  living_at(s, "2027-04-05 22:00");
  s.u.nav.open = side_page::gate;
  pass_packet_and_morning(s);
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
  CHECK(s.shown() == "gate-morning");
  CHECK_FALSE(s.press("ready"));
  REQUIRE(s.press("none-true"));
  s.settle();
  CHECK(s.shown() == "gate-things");
  s.m.go_to("2027-04-06 07:31");
  tick_all(s);
  REQUIRE(s.press("next"));
  REQUIRE(s.press("ready"));
  REQUIRE(s.asked<reported_ready>() != nullptr);
}

TEST_CASE("the sound can be tried, and without one the screen is to be watched") {
  stage s(draw_gate);
  living_at(s, "2027-04-06 07:40");
  pass_packet_and_morning(s);
  REQUIRE(s.press("try-sound"));
  CHECK(s.asked_outright<try_sound>());
  s.m.sound = false;
  s.h.frames(1);
  CHECK(s.h.find("try-sound") == nullptr);
  CHECK(s.h.find("sound")->name == s.m.t("gate.check.no-sound"));
}

TEST_CASE("at the gate what was told is spoken of, and more can be told") {
  stage s(draw_gate);
  living_at(s, "2027-04-06 07:40");
  s.m.tell(reported_slip{"fast", s.m.at.wall, how_known::told, ""});
  s.h.frames(1);
  CHECK(s.h.find("slips") != nullptr);
  REQUIRE(s.press("open-slip"));
  CHECK(s.u.nav.open == side_page::slip);
}
