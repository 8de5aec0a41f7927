// The packet is read out: its name and the amount of one dose, as the form that was planned has
// them. Whatever else it says keeps it closed.
#include "tests/unit/screens/gate/held_stages.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// At the gate's packet, for that form of that test.
void at_the_packet(stage& s, std::size_t test, const std::string& form) {
  living_at(s, before_the_sugar, test);
  s.m.s.planned->form = form;
  changed(s);
  s.h.frames(1);
  s.u.nav.page = gate_page::sugar;
}

} // namespace

TEST_CASE("the packet's page says name and amount of every form of every test, and fits") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  std::size_t measured = 0;
  for (const auto& [width, height] : sizes) {
    stage s(draw_agree, width, height);
    for (std::size_t test = 0; test < s.m.tests.size(); ++test) {
      const substrate sugar = s.m.tests[test].test.sugar;
      for (const sugar_form& f : sugar.forms) {
        INFO(s.m.tests[test].id << " " << f.form);
        show_afresh(s, draw_screen, [&](stage& x) { at_the_packet(x, test, f.form); });
        REQUIRE(s.shown() == "gate-sugar");
        look_at_leaves(s, f.form);
        s.u.nav.page = gate_page::intro;
        s.h.frames(1);
        s.u.nav.page = gate_page::sugar;
        CHECK(s.seek("packet")->value == sugar.name);
        const std::string amount = std::to_string(f.amount) + " " + f.unit;
        CHECK(s.seek("amount")->value == amount);
        CHECK((s.seek("measure") != nullptr) == f.measure);
        if (f.measure) ++measured;
        s.settles = true;
        REQUIRE(s.press("sugar-matches"));
        s.settles = false;
        const auto* told = s.asked<reported_packet>();
        REQUIRE(told != nullptr);
        CHECK(told->name == sugar.name);
        CHECK(told->amount == f.amount);
        CHECK(told->unit == f.unit);
        CHECK(is_right_packet(s.m.s, *told));
        CHECK(s.shown() == "gate-morning");
      }
    }
  }
  CHECK(measured > 0);
}

TEST_CASE("another packet is told in its words, keeps the sugar closed, and is read again") {
  stage s(draw_screen);
  s.settles = true;
  living_at(s, before_the_sugar);
  REQUIRE(s.press("begin-checks"));
  REQUIRE(s.press("other-packet"));
  CHECK(s.shown() == "gate-packet-says");
  CHECK(s.h.faults() == std::vector<std::string>{});
  const bool with_words = GENERATE(true, false);
  REQUIRE_FALSE(s.press("tell-packet")); // nothing was said yet
  if (with_words) s.write("packet-says", "sorbitol 20 g");
  REQUIRE(s.press(with_words ? "tell-packet" : "cannot-read"));
  const auto* told = s.asked<reported_packet>();
  REQUIRE(told != nullptr);
  CHECK(told->name.empty());
  CHECK(told->words == (with_words ? "sorbitol 20 g" : "I cannot read it"));
  CHECK(s.u.drafts.packet_says.empty());
  CHECK(s.shown() == "gate-other-sugar");
  CHECK(s.h.find("title")->name == "Do not drink this sugar. Call the laboratory");
  CHECK(s.seek("laboratory")->value == s.m.lab.telephone);
  CHECK_FALSE(leads_on(s));
  SECTION("it was misread") {
    REQUIRE(s.press("look-again"));
    REQUIRE(s.shown() == "gate-sugar");
    REQUIRE(s.press("sugar-matches"));
    REQUIRE(s.shown() == "packet-again"); // in full once more, with both
    s.wished.reset();
    look_at_leaves(s, "packet-again");
    CHECK(s.seek("both")->name.find(with_words ? "sorbitol 20 g" : "I cannot read it") !=
          std::string::npos);
    CHECK_FALSE(leads_on(s));
    REQUIRE(s.press("packet-now"));
    CHECK(s.shown() == "gate");
    REQUIRE(s.m.s.other_packets.size() == 1); // the laboratory sees both
    CHECK(s.m.s.other_packets.front().until_seq == s.m.s.packet->seq);
  }
  SECTION("read once more, it says something else after all") {
    REQUIRE(s.press("look-again"));
    REQUIRE(s.press("sugar-matches"));
    REQUIRE(s.press("packet-earlier"));
    CHECK(s.shown() == "gate-other-sugar");
    CHECK_FALSE(leads_on(s));
  }
  SECTION("it says something else still") {
    REQUIRE(s.press("look-again"));
    REQUIRE(s.press("other-packet"));
    s.write("packet-says", "sorbitol 25 g");
    REQUIRE(s.press("tell-packet"));
    CHECK(s.shown() == "gate-other-sugar");
    CHECK(s.seek("says")->name.find("sorbitol 25 g") != std::string::npos);
  }
  SECTION("going back from writing leads to the packet") {
    REQUIRE(s.press("look-again"));
    REQUIRE(s.press("other-packet"));
    REQUIRE(s.press("back"));
    CHECK(s.shown() == "gate-sugar");
  }
  SECTION("another day costs nothing") {
    REQUIRE(s.press("not-today"));
    REQUIRE(s.press("open-choose"));
    CHECK(s.u.nav.open == side_page::choose);
  }
}

TEST_CASE("another packet is asked about once more also where the start was moved since") {
  stage s(draw_screen);
  s.settles = true;
  nothing_stands(s);
  s.m.tell(reported_packet{"", 0, "", "sorbitol 20 g"});
  s.m.plan_for("2027-04-06 08:15");
  s.m.go_to("2027-04-06 08:10");
  s.h.frames(1);
  REQUIRE(s.press("begin-checks"));
  REQUIRE(s.press("sugar-matches"));
  REQUIRE(s.shown() == "packet-again");
  SECTION("it is the plan's") {
    REQUIRE(s.press("packet-now"));
    CHECK(s.shown() == "gate-morning");
    CHECK(is_right_packet(s.m.s, s.m.s.packet->what));
  }
  SECTION("it says something else") {
    REQUIRE(s.press("packet-earlier"));
    CHECK(s.shown() == "gate-packet-says");
  }
}

TEST_CASE("a packet of before the start was moved is read again") {
  stage s(draw_screen);
  nothing_stands(s);
  s.m.plan_for("2027-04-06 08:15");
  s.m.go_to("2027-04-06 08:10");
  s.h.frames(1);
  s.u.nav.page = gate_page::things;
  CHECK(s.shown() == "gate");
  REQUIRE(s.press("begin-checks"));
  CHECK(s.shown() == "gate-sugar");
}
