// Presses of a hand that trembles, and of a hand that holds on.
// A press must have begun where it ends, on the same screen, and not in the moment after another.
#include "tests/unit/ui/harness.hpp"

#include <catch2/catch.hpp>

#include <imgui.h>

using namespace qb;
using test::harness;

namespace {

// A page with one of everything that can be pressed, and what was.
struct pressing {
  harness h{390, 844};
  std::string screen{"one"};
  std::string key{"go"};
  int go{0};
  int others{0};
  int steps{0};
  bool pressed_seen{false};
  std::string text;

  pressing() {
    h.draw = [this](toolkit& k) {
      page_options o;
      o.screen = screen;
      const auto page = k.page(
          o,
          [&] {
            steps += stepper(k, "day", "Day", "Tuesday");
            if (choice_list(k, "c", {{"a", "A", ""}}, "")) ++others;
            if (check_row(k, "check", "Here", false)) ++others;
            if (score(k, "pain", {"Pain", "none", "worst", "Leave out", {}, false})) ++others;
            (void)text_field(k, "name", {"Name", "", "", text_kind::plain, 9}, text);
          },
          [&] {
            if (primary_button(k, key, "Go")) ++go;
            if (quiet_button(k, "quiet", "Another way")) ++others;
          });
      if (page.unwell) ++others;
      pressed_seen = pressed_seen || k.pressed();
    };
    h.frames(1);
  }
  void point_at(const std::string& what) {
    const element* e = h.find(what);
    REQUIRE(e != nullptr);
    ImGui::GetIO().MousePos = {e->x + e->w / 2, e->y + e->h / 2};
    h.frames(1);
  }
  void finger(bool down) {
    ImGui::GetIO().MouseDown[0] = down;
    h.frames(1);
  }
};

} // namespace

TEST_CASE(
    "a deaf toolkit answers no button, link, choice, check or score, and shows none as pressed") {
  pressing p;
  const auto look = [&](const char* key) {
    p.point_at(key);
    return p.h.picture();
  };
  p.h.the_toolkit().set_deaf(true);
  for (const char* key : {"go", "quiet", "c-a", "check", "pain-3", "pain-skip", "unwell"}) {
    INFO(key);
    const auto at_rest = look(key);
    p.finger(true);
    CHECK(p.h.picture() == at_rest);
    p.finger(false);
    p.h.frames(2);
  }
  CHECK(p.go == 0);
  CHECK(p.others == 0);
  CHECK_FALSE(p.pressed_seen);
  p.h.the_toolkit().set_deaf(false);
  p.h.frames(3);
  CHECK(p.go + p.others == 0);
  for (const char* key : {"go", "quiet", "c-a", "check", "pain-3", "pain-skip", "unwell"}) {
    INFO(key);
    p.pressed_seen = false;
    REQUIRE(p.h.press(key));
    CHECK(p.pressed_seen);
  }
  CHECK(p.go == 1);
  CHECK(p.others == 6);
}

TEST_CASE("a deaf toolkit still steps and types, and closing the keyboard leads on") {
  pressing p;
  REQUIRE(p.h.press("name"));
  p.h.the_toolkit().set_deaf(true);
  p.pressed_seen = false;
  REQUIRE(p.h.press("key-a"));
  REQUIRE(p.h.press("key-b"));
  CHECK(p.text == "Ab");
  CHECK_FALSE(p.pressed_seen);
  REQUIRE(p.h.press("key-done"));
  CHECK(p.pressed_seen);
  p.pressed_seen = false;
  REQUIRE(p.h.press("day-more"));
  CHECK(p.steps == 1);
  CHECK_FALSE(p.pressed_seen);
}

TEST_CASE("a press that began while the toolkit was deaf, or ends while it is, is none") {
  pressing p;
  p.point_at("go");
  p.h.the_toolkit().set_deaf(true);
  p.finger(true);
  p.h.the_toolkit().set_deaf(false);
  p.finger(false);
  p.h.frames(2);
  CHECK(p.go == 0);
  p.finger(true);
  p.h.the_toolkit().set_deaf(true);
  p.finger(false);
  p.h.the_toolkit().set_deaf(false);
  p.h.frames(2);
  CHECK(p.go == 0);
  p.finger(true);
  p.finger(false);
  CHECK(p.go == 1);
}

TEST_CASE("a deaf toolkit does not answer Enter or the space bar either") {
  pressing p;
  p.h.hit(ImGuiKey_Tab);
  for (int i = 0; i < 12; ++i)
    p.h.hit(ImGuiKey_DownArrow);
  p.h.the_toolkit().set_deaf(true);
  p.pressed_seen = false;
  const int before = p.go + p.others;
  p.h.hit(ImGuiKey_Enter);
  p.h.hit(ImGuiKey_Space);
  CHECK(p.go + p.others == before);
  CHECK_FALSE(p.pressed_seen);
}

TEST_CASE("pressing down on one screen and letting go on the next presses nothing") {
  for (const char* key_after : {"go", "next"}) {
    INFO("a button named " << key_after << " on the same pixels");
    pressing p;
    p.point_at("go");
    p.finger(true);
    p.screen = "two";
    p.key = key_after;
    p.h.frames(2);
    const auto held = p.h.picture();
    p.finger(false);
    p.h.frames(2);
    CHECK(p.go == 0);
    CHECK_FALSE(p.pressed_seen);
    CHECK(p.h.picture() == held); // it was not shown as pressed
    p.finger(true);
    p.finger(false);
    CHECK(p.go == 1);
  }
}

TEST_CASE("a stepper held down steps again after half a second, and asks for the frames to do so") {
  pressing p;
  p.point_at("day-more");
  CHECK_FALSE(p.h.the_toolkit().wants_frames());
  p.finger(true);
  CHECK(p.h.the_toolkit().wants_frames());
  p.h.frames(25);
  CHECK(p.steps == 0);
  p.h.frames(65); // a second and a half in all
  CHECK(p.steps >= 6);
  CHECK(p.steps <= 8);
  const int so_far = p.steps;
  p.finger(false);
  p.h.frames(60);
  CHECK(p.steps == so_far);
  CHECK_FALSE(p.h.the_toolkit().wants_frames());
  REQUIRE(p.h.press("day-less"));
  CHECK(p.steps == so_far - 1);
}
