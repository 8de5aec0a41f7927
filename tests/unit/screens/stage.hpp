// A screen in a made-up window, with what it asked for last.
// Shared by the tests of the preparation screens.
#pragma once

#include "app/patient/screens/screens.hpp"
#include "tests/unit/kit/harness.hpp"
#include "tests/unit/screens/prepare_views.hpp"

#include <catch2/catch.hpp>

namespace qb::test {

using screen = maybe_wish (*)(kit&, const view&, ui_state&);

struct stage {
  explicit stage(screen shown_first, float width = 360, float height = 640)
      : what(shown_first), h(width, height) {
    h.draw = [this](kit& k) {
      const view v = m.get();
      if (auto w = what(k, v, u)) wished = w;
    };
  }
  stage(const stage&) = delete;
  stage& operator=(const stage&) = delete;

  bool press(const std::string& key) {
    h.frames(1);
    return h.press(key);
  }
  [[nodiscard]] std::string shown() {
    h.frames(1);
    return h.seen().screen;
  }
  template <typename T>
  [[nodiscard]] const T* asked() const {
    const auto* p = wished ? std::get_if<payload>(&*wished) : nullptr;
    return p == nullptr ? nullptr : std::get_if<T>(p);
  }
  template <typename T>
  [[nodiscard]] bool asked_outright() const {
    return wished && std::holds_alternative<T>(*wished);
  }
  // Opens a written line, types, and closes the keyboard.
  void write(const std::string& key, const std::string& text) {
    REQUIRE(press(key));
    h.type(text);
    REQUIRE(press("key-done"));
  }

  screen what;
  made_view m;
  ui_state u;
  maybe_wish wished;
  harness h;
};

// Says no to every caution, from the first one's page on.
inline void say_no_to_cautions(stage& s) {
  for (std::size_t i = 0; i < s.m.tests.front().test.cautions.size(); ++i) {
    REQUIRE(s.shown() == "choose-cautions");
    CHECK(s.h.find(s.m.tests.front().test.cautions[i].why.rule) != nullptr);
    REQUIRE(s.press("none-true"));
  }
}

inline void planned(made_view& m) {
  m.open();
  m.introduce();
  m.plan_for("2027-04-06 07:30");
}

// A draft that stops short of the cautions.
inline void drafted(ui_state& u) {
  u.text[draft::test] = "lactulose-10g";
  u.text[draft::form] = "syrup";
  u.text[draft::date] = "2027-04-06";
  u.text[draft::minute] = "450";
}

} // namespace qb::test
