// Writing on a line: with the drawn keyboard, and with a real one.
// Names first, because they are what most patients have to write.
#include "app/patient/ui/capitals.hpp"
#include "app/patient/ui/keyboard.hpp"
#include "core/base/text.hpp"
#include "tests/unit/ui/harness.hpp"

#include <catch2/catch.hpp>
#include <imgui.h>

using namespace qb;
using test::harness;

namespace {

// A page with one line of that kind and a button.
struct form {
  harness h;
  std::string text;
  field_event last{field_event::none};
  int pressed{0};

  form(text_kind kind, std::string start, float width = 360, float height = 640)
      : h(width, height), text(std::move(start)) {
    h.draw = [this, kind](toolkit& k) {
      page_options o;
      o.screen = "form";
      (void)k.page(
          o,
          [&] {
            const field_event e = text_field(k, "name", {"Your name", "", "", kind, 12}, text);
            if (e != field_event::none) last = e;
          },
          [&] {
            if (primary_button(k, "go", "Go on")) ++pressed;
          });
    };
    h.frames(1);
  }
};

} // namespace

TEST_CASE("the drawn keyboard writes a name with capitals where names have them") {
  form f(text_kind::name, "");
  REQUIRE(f.h.press("name"));
  for (const char* key : {"key-a", "key-d", "key-a", "key-space", "key-b", "key-o"}) {
    REQUIRE(f.h.press(key));
  }
  CHECK(f.text == "Ada Bo");
  CHECK(f.h.value("name") == "Ada Bo");
  REQUIRE(f.h.press("key-erase"));
  CHECK(f.text == "Ada B");
  REQUIRE(f.h.press("key-done"));
  CHECK(f.last == field_event::done);
  CHECK(f.h.find("key-a") == nullptr);
  CHECK(f.h.find("go") != nullptr);
}

TEST_CASE("accents, digits and capitals are a leaf away") {
  form f(text_kind::plain, "x");
  REQUIRE(f.h.press("name"));
  REQUIRE(f.h.press("key-accents"));
  REQUIRE(f.h.press("key-é"));
  REQUIRE(f.h.press("key-accents"));
  REQUIRE(f.h.press("key-ł"));
  REQUIRE(f.h.press("key-shift"));
  REQUIRE(f.h.press("key-ż"));
  REQUIRE(f.h.press("key-digits"));
  REQUIRE(f.h.press("key-7"));
  REQUIRE(f.h.press("key-letters"));
  REQUIRE(f.h.press("key-z"));
  CHECK(f.text == "xéłŻ7z");
  REQUIRE(f.h.press("key-erase"));
  REQUIRE(f.h.press("key-erase"));
  REQUIRE(f.h.press("key-erase"));
  CHECK(f.text == "xéł");
}

TEST_CASE("a real keyboard types into the same line, and its space presses nothing") {
  form f(text_kind::name, "");
  REQUIRE(f.h.press("name"));
  f.h.type("Zoë Ål");
  CHECK(f.text == "Zoë Ål");
  f.h.hit(ImGuiKey_Space);
  CHECK(f.pressed == 0);
  f.h.hit(ImGuiKey_Backspace);
  CHECK(f.text == "Zoë Å");
  f.h.hit(ImGuiKey_Enter);
  CHECK(f.last == field_event::done);
  f.h.type("no longer");
  CHECK(f.text == "Zoë Å");
}

TEST_CASE("a kit number is written in capitals, whatever the keyboard") {
  form f(text_kind::code, "");
  REQUIRE(f.h.press("name"));
  REQUIRE(f.h.press("key-q"));
  REQUIRE(f.h.press("key-7"));
  f.h.type("ab");
  CHECK(f.text == "Q7AB");
}

TEST_CASE("a line takes no more than its longest") {
  form f(text_kind::plain, "");
  REQUIRE(f.h.press("name"));
  f.h.type("abcdefghijklmnop");
  CHECK(f.text == "abcdefghijkl");
  REQUIRE(f.h.press("key-z"));
  CHECK(f.text == "abcdefghijkl");
}

TEST_CASE("every leaf of the keyboard has large keys inside the window") {
  for (const auto& [w, high] : {std::pair{360.0F, 640.0F}, {480.0F, 800.0F}, {800.0F, 480.0F}}) {
    for (const text_kind kind :
         {text_kind::name, text_kind::plain, text_kind::code, text_kind::number}) {
      form f(kind, "Twelve words", w, high);
      REQUIRE(f.h.press("name"));
      INFO(w << " by " << high << ", kind " << static_cast<int>(kind));
      CHECK(f.h.faults() == std::vector<std::string>{});
      for (const char* panel : {"key-accents", "key-accents", "key-digits"}) {
        if (f.h.find(panel) == nullptr) continue;
        REQUIRE(f.h.press(panel));
        CHECK(f.h.faults() == std::vector<std::string>{});
      }
    }
  }
}

TEST_CASE("a date is written with ten digits and three marks, on keys larger than letters") {
  for (const auto& [w, high] : {std::pair{360.0F, 640.0F}, {800.0F, 480.0F}}) {
    form f(text_kind::number, "", w, high);
    REQUIRE(f.h.press("name"));
    std::string keys;
    for (const element& e : f.h.seen().elements) {
      if (e.role == "key" && e.key.size() == 5) keys += e.name;
    }
    CHECK(keys == "123-456.789/0");
    CHECK(f.h.find("key-5")->w > 75);
    CHECK(f.h.find("key-5")->h >= 56);
    CHECK(f.h.find("key-0")->x == f.h.find("key-8")->x);
    for (const char* key : {"key-3", "key-1", "key-.", "key-2", "key-0", "key--", "key-/"})
      REQUIRE(f.h.press(key));
    CHECK(f.text == "31.20-/");
    CHECK(f.h.faults() == std::vector<std::string>{});
  }
}

TEST_CASE("erasing takes a whole character, and capitals are found for the letters of the leaves") {
  std::string text = "aé漢";
  erase_last_character(text);
  CHECK(text == "aé");
  erase_last_character(text);
  CHECK(text == "a");
  erase_last_character(text);
  erase_last_character(text);
  CHECK(text.empty());
  CHECK(capitals("àÿœłżçßşі-9") == "ÀŸŒŁŻÇßŞІ-9");
  CHECK(character_count("aé漢") == 3);
  CHECK(capitals("\xC3") == "\xEF\xBF\xBD");
}

TEST_CASE("a letter that cannot be printed is taken, and said under the line while it is typed") {
  form f(text_kind::name, "");
  REQUIRE(f.h.press("name"));
  f.h.type("Ada");
  CHECK(f.h.find("name-letters") == nullptr);
  ImVector<ImWchar>& queue = ImGui::GetIO().InputQueueCharacters;
  for (const unsigned half :
       {0xDBFFU, 0xDFF0U, 0xFFFDU}) // U+10FFF0, and what Dear ImGui makes of it
    queue.push_back(static_cast<ImWchar>(half));
  f.h.frames(2);
  CHECK(f.text == "Ada\U0010FFF0");
  REQUIRE(f.h.find("name-letters") != nullptr);
  CHECK(f.h.find("name-letters")->name == test::some_words().no_font);
  CHECK(f.h.faults().empty());
  REQUIRE(f.h.press("key-done"));
  REQUIRE(f.h.find("name-hint") != nullptr);
  CHECK(f.h.find("name-hint")->name == test::some_words().no_font);
}

TEST_CASE(
    "a mark typed behind its letter is one character with it, and so are parts of a syllable") {
  form f(text_kind::plain, "");
  REQUIRE(f.h.press("name"));
  f.h.type("e");
  f.h.type("\u0301");
  CHECK(f.text == "é");
  f.h.type("\u1112\u1161\u11AB");
  CHECK(f.text == "é한");
  for (int n = 0; n < 20; ++n)
    f.h.type("한");
  CHECK(character_count(f.text) == 12);
}
