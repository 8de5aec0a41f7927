// What a finger can and cannot do to the toolkit, and what stands in the outline.
// Pages are small inventions; the screens have their own tests.
#include "tests/unit/ui/harness.hpp"

#include <catch2/catch.hpp>
#include <fmt/core.h>

#include <imgui.h>

using namespace qb;
using test::harness;

namespace {

page_options options(const std::string& screen) {
  page_options o;
  o.screen = screen;
  o.where = "Step 1 of 5";
  return o;
}

} // namespace

TEST_CASE("a press is reported once, in the frame of the release") {
  harness h;
  int pressed = 0;
  h.draw = [&](toolkit& k) {
    (void)k.page(
        options("one"), [&] { headline(k, "h", "Do this"); },
        [&] {
          if (primary_button(k, "go", "Go on")) ++pressed;
        });
  };
  h.frames(2);
  CHECK(pressed == 0);
  REQUIRE(h.press("go"));
  CHECK(pressed == 1);
  h.frames(5);
  CHECK(pressed == 1);
}

TEST_CASE("a press that begins on a button and ends elsewhere is none") {
  harness h;
  int pressed = 0;
  h.draw = [&](toolkit& k) {
    (void)k.page(
        options("one"), [] {},
        [&] {
          if (primary_button(k, "go", "Go")) ++pressed;
        });
  };
  h.frames(1);
  const element* go = h.find("go");
  REQUIRE(go != nullptr);
  ImGuiIO& io = ImGui::GetIO();
  io.MousePos = {go->x + 5, go->y + 5};
  h.frames(1);
  io.MouseDown[0] = true;
  h.frames(1);
  io.MousePos = {5, 300};
  h.frames(1);
  io.MouseDown[0] = false;
  h.frames(2);
  CHECK(pressed == 0);
}

TEST_CASE("two draws of one state give the same picture, and so does another window") {
  const auto draw = [](toolkit& k) {
    (void)k.page(
        options("same"),
        [&] {
          headline(k, "h", "Rest");
          quarter(k, "q", {0.5F, "07:30", "until tube 3", "Tuesday 08:00", false});
        },
        [&] { (void)primary_button(k, "go", "Go on"); });
  };
  harness one;
  one.draw = draw;
  one.frames(1);
  const auto first = one.picture();
  one.frames(1);
  CHECK(one.picture() == first);
  harness other;
  other.draw = draw;
  other.frames(1);
  CHECK(other.picture() == first);
}

TEST_CASE("I feel unwell stands at one place on every page, and is pressed like any other") {
  harness h;
  bool unwell = false;
  std::string text = "a";
  page_options o = options("one");
  h.draw = [&](toolkit& k) {
    if (k.page(
             o,
             [&] {
               (void)text_field(k, "f", {"Name", "", "", text_kind::name, 60}, text);
             },
             [&] { (void)primary_button(k, "go", "Go"); })
            .unwell) {
      unwell = true;
    }
  };
  h.frames(1);
  const element before = *h.find("unwell");
  o = options("two");
  o.practice = true;
  h.frames(1);
  const element after = *h.find("unwell");
  CHECK(before.x == after.x);
  CHECK(before.y == after.y);
  REQUIRE(h.press("f"));
  REQUIRE(h.find("key-done") != nullptr);
  CHECK(h.find("unwell")->y == before.y);
  CHECK_FALSE(unwell);
  REQUIRE(h.press("unwell"));
  CHECK(unwell);
}

TEST_CASE("content that does not fit turns over to further leaves, and the actions come last") {
  harness h(360, 640);
  h.draw = [&](toolkit& k) {
    (void)k.page(
        options("long"),
        [&] {
          headline(k, "h", "A long page");
          for (int i = 1; i <= 20; ++i) {
            paragraph(k, fmt::format("p{}", i), "Some words that fill a line and more.");
          }
        },
        [&] { (void)primary_button(k, "go", "Go on"); });
  };
  h.frames(1);
  CHECK(h.value("page-number") == "");
  CHECK(h.find("p1") != nullptr);
  CHECK(h.find("p20") == nullptr);
  CHECK(h.find("go") == nullptr);
  CHECK(h.find("page-back") == nullptr);
  int panels = 1;
  std::string last;
  while (h.find("page-more") != nullptr && panels < 20) {
    CHECK(h.faults() == std::vector<std::string>{});
    REQUIRE(h.press("page-more"));
    ++panels;
  }
  CHECK(panels >= 3);
  CHECK(h.find("p20") != nullptr);
  CHECK(h.find("go") != nullptr);
  REQUIRE(h.press("page-back"));
  CHECK(h.find("p20") == nullptr);
}

TEST_CASE("a new screen begins at its first leaf") {
  harness h(360, 640);
  page_options o = options("long");
  h.draw = [&](toolkit& k) {
    (void)k.page(
        o,
        [&] {
          for (int i = 1; i <= 30; ++i)
            paragraph(k, fmt::format("p{}", i), "Words.");
        },
        [] {});
  };
  REQUIRE(h.press("page-more"));
  CHECK(h.find("p1") == nullptr);
  o.turn = "another sample";
  h.frames(1);
  CHECK(h.find("p1") != nullptr);
}

TEST_CASE("the rack tells every state of a tube in the outline, with its number") {
  harness h(360, 640);
  page_options o = options("rack");
  o.rack = {tube_mark::filled, tube_mark::late,  tube_mark::missed,
            tube_mark::next,   tube_mark::empty, tube_mark::unused};
  h.draw = [&](toolkit& k) {
    (void)k.page(
        o, [] {}, [] {});
  };
  h.frames(1);
  const std::vector<std::string> words{"filled", "late", "missed", "next", "empty", "unused"};
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string key = fmt::format("tube-{}", i + 1);
    CHECK(h.state(key) == words[i]);
    CHECK(h.find(key)->name == fmt::format("{}", i + 1));
  }
}

TEST_CASE("each state of a tube is drawn differently, without its colour") {
  // The same colour for everything: only forms and marks are left.
  std::vector<std::size_t> shapes;
  for (const tube_mark m : {tube_mark::unused, tube_mark::empty, tube_mark::next, tube_mark::filled,
                            tube_mark::late, tube_mark::missed}) {
    harness h;
    theme plain = make_theme(look::high_contrast);
    plain.now = plain.quiet = plain.needs_you = plain.hairline = plain.ink;
    h.the_toolkit().set_look(plain);
    h.draw = [&](toolkit& k) {
      (void)k.page(
          options("r"), [&] { rack(k, "r", "rack", {m}); }, [] {});
    };
    h.frames(1);
    for (const std::size_t seen : shapes)
      CHECK(h.picture() != seen);
    shapes.push_back(h.picture());
  }
}

TEST_CASE("a rack of one to twenty-four tubes fits the narrowest window") {
  for (std::size_t n = 1; n <= 24; ++n) {
    harness h(360, 640);
    page_options o = options("rack");
    o.rack.assign(n, tube_mark::empty);
    h.draw = [&](toolkit& k) {
      (void)k.page(
          o, [&] { headline(k, "h", "Rest"); }, [] {});
    };
    h.frames(1);
    INFO(n << " tubes");
    CHECK(h.faults() == std::vector<std::string>{});
    CHECK(h.find(fmt::format("tube-{}", n)) != nullptr);
  }
}

TEST_CASE("a score has nothing chosen beforehand, and a skip is not a nought") {
  harness h(360, 640);
  std::optional<score_press> got;
  h.draw = [&](toolkit& k) {
    (void)k.page(
        options("s"),
        [&] {
          const auto p = score(k, "pain", {"Pain", "none", "worst ever", "Leave out", {}, false});
          if (p) got = p;
        },
        [] {});
  };
  h.frames(2);
  for (int n = 0; n <= 10; ++n)
    CHECK(h.state(fmt::format("pain-{}", n)) == "off");
  CHECK(h.state("pain-skip") == "off");
  REQUIRE(h.press("pain-0"));
  REQUIRE(got);
  CHECK_FALSE(got->skip);
  CHECK(got->value == 0);
  REQUIRE(h.press("pain-skip"));
  CHECK(got->skip);
  REQUIRE(h.press("pain-10"));
  CHECK(got->value == 10);
}

TEST_CASE("steppers, choices and checks answer which way and which one") {
  harness h;
  int way = 0;
  std::optional<std::size_t> chosen;
  int checked = 0;
  std::size_t went = 99;
  h.draw = [&](toolkit& k) {
    (void)k.page(
        options("c"),
        [&] {
          way += stepper(k, "day", "Day", "Tuesday 24 November", false, true);
          const auto c =
              choice_list(k, "sugar", {{"a", "Lactulose", "a syrup"}, {"b", "Glucose", ""}}, "a");
          if (c) chosen = c;
          went = menu_list(k, "go", {{"plan", "The whole plan", ""}}).value_or(went);
          if (check_row(k, "ok", "Ten tubes are here", false)) ++checked;
        },
        [] {});
  };
  REQUIRE(h.press("day-less"));
  CHECK(way == -1);
  REQUIRE(h.press("day-more"));
  CHECK(way == -1); // at its end
  CHECK(h.value("day") == "Tuesday 24 November");
  CHECK(h.state("sugar-a") == "on");
  REQUIRE(h.press("sugar-b"));
  CHECK(chosen == std::size_t{1});
  REQUIRE(h.press("go-plan"));
  CHECK(went == 0);
  REQUIRE(h.press("ok"));
  CHECK(checked == 1);
}

TEST_CASE("the outline becomes JSON with names escaped and whole pixels") {
  outline seen;
  seen.screen = "who";
  seen.frame = 7;
  seen.settled = true;
  seen.width = 360;
  seen.height = 640;
  element e;
  e.key = "name";
  e.role = "textbox";
  e.name = "Your \"name\"";
  e.value = "a\\b\n\x01";
  e.x = 23.6F;
  e.w = 312;
  e.h = 52;
  seen.elements.push_back(e);
  CHECK(to_json(seen) ==
        "{\"screen\":\"who\",\"frame\":7,\"settled\":true,\"size\":[360,640],\"elements\":[\n"
        "{\"key\":\"name\",\"role\":\"textbox\",\"name\":\"Your \\\"name\\\"\","
        "\"value\":\"a\\\\b\\n\\u0001\",\"state\":\"\",\"x\":24,\"y\":0,\"w\":312,\"h\":52}\n]}\n");
  outline later = seen;
  later.frame = 8;
  CHECK(fingerprint(later) == fingerprint(seen));
  later.settled = false;
  CHECK(fingerprint(later) != fingerprint(seen));
}
