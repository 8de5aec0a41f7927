// "I feel unwell": help first, then which signs are there, then the ways on.
#include "tests/unit/screens/gate/held_stages.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// In the rest before tube 2, feeling unwell.
void unwell_at_rest(stage& s) {
  s.settles = true;
  to_rest(s);
  s.m.tell(reported_unwell{});
  REQUIRE(s.shown() == "unwell");
}

void press_seeking(stage& s, const std::string& key) {
  REQUIRE(s.seek(key) != nullptr);
  REQUIRE(s.press(key));
}

} // namespace

TEST_CASE("going on asks for the warning signs, and none of them goes on") {
  for (const auto& [width, height] : {std::pair{360.0F, 640.0F}, std::pair{480.0F, 800.0F}}) {
    stage s(draw_screen, width, height);
    unwell_at_rest(s);
    press_seeking(s, "unwell-over");
    CHECK(s.shown() == "unwell-signs");
    CHECK(s.m.s.unwell.has_value());
    // It can be said that none is there only on the leaf behind all of them.
    if (s.h.find("page-more") != nullptr) CHECK(s.h.find("red-flags-none") == nullptr);
    for (const warning_sign& sign : s.m.s.test->warnings.signs)
      CHECK(s.seek(sign.id) != nullptr);
    press_seeking(s, "red-flags-none");
    CHECK_FALSE(s.m.s.unwell.has_value());
    CHECK(s.shown() == "wait");
  }
}

TEST_CASE("a milder sign is told, and then to stop leads and going on asks whether it has passed") {
  stage s(draw_screen);
  unwell_at_rest(s);
  press_seeking(s, "unwell-over");
  press_seeking(s, "pain");
  press_seeking(s, "red-flags-some");
  CHECK(s.shown() == "unwell");
  REQUIRE(s.seek("stop-test") != nullptr);
  CHECK(s.seek("stop-test")->role == "button");
  CHECK(s.h.find("unwell-over") == nullptr);
  press_seeking(s, "unwell-passed");
  CHECK(s.shown() == "unwell-passed");
  press_seeking(s, "has-passed");
  CHECK(s.shown() == "wait");
}

TEST_CASE("moving the start does not say that the person is well again") {
  stage s(draw_screen);
  s.settles = true;
  nothing_stands(s);
  s.m.pass_the_gate();
  s.m.tell(reported_unwell{});
  REQUIRE(s.shown() == "unwell");
  press_seeking(s, "unwell-move");
  CHECK(s.m.s.unwell.has_value());
  s.u.nav.close_side();
  CHECK(s.shown() == "unwell");
  CHECK_FALSE(leads_on(s));
}

TEST_CASE("each question of the morning stands with its signs, and not sure asks it in full") {
  stage s(draw_gate);
  s.settles = true;
  living_at(s, before_the_sugar);
  packet_read(s);
  s.u.nav.page = gate_page::morning;
  REQUIRE(s.shown() == "gate-morning");
  std::string all;
  each_element(s, [&](const element& e) { all += e.name + " " + e.value + " "; });
  for (const caution& c : s.m.s.test->morning) {
    CHECK(all.find(c.question) != std::string::npos);
    for (const std::string& sign : c.recognise)
      CHECK(all.find(sign) != std::string::npos);
  }
  press_seeking(s, "not-sure");
  for (std::size_t i = 0; i < s.m.s.test->morning.size(); ++i) {
    REQUIRE(s.shown() == "gate-question");
    press_seeking(s, "none-true");
  }
  CHECK(s.shown() == "gate-things");
}
