// A screen in a made-up window, with what it asked for last.
// Shared by the tests of the preparation screens.
#pragma once

#include "app/patient/screens/screens.hpp"
#include "tests/unit/screens/prepare_views.hpp"
#include "tests/unit/ui/harness.hpp"

#include <catch2/catch.hpp>

namespace qb::test {

using screen = maybe_wish (*)(toolkit&, const view&, ui_state&);

// Whether that text stands on the leaf that is shown.
inline bool leaf_has(const harness& h, const std::string& text) {
  for (const element& e : h.seen().elements) {
    if ((e.name + "\n" + e.value).find(text) != std::string::npos) return true;
  }
  return false;
}

// Whether the laboratory's telephone number stands on the leaf, and its hours do not.
inline bool number_without_hours(const harness& h) {
  return leaf_has(h, fenwick().telephone) && !leaf_has(h, fenwick().telephone_hours);
}

struct stage {
  explicit stage(screen shown_first, float width = 360, float height = 640)
      : what(shown_first), h(width, height) {
    h.draw = [this](toolkit& k) {
      const view v = m.get();
      auto w = what(k, v, u);
      if (!w) return;
      wished = w;
      if (settles) settle_now();
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
  // The element of that key, with leaves turned forward until it is shown; nullptr where none has.
  [[nodiscard]] const element* seek(const std::string& key) {
    h.frames(1);
    while (h.find(key) == nullptr && h.find("page-more") != nullptr)
      REQUIRE(h.press("page-more"));
    return h.find(key);
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

  // The fact that was asked for last becomes one, as the shell does before the next frame.
  void settle() {
    settle_now();
    wished.reset();
  }
  void settle_now() {
    if (wished && std::holds_alternative<payload>(*wished)) m.tell(std::get<payload>(*wished));
    if (wished && std::holds_alternative<record_all>(*wished)) {
      for (const payload& p : std::get<record_all>(*wished).facts)
        m.tell(p);
    }
  }

  // Goes through the open page leaf by leaf: nothing cut or overlapping, no placeholder left in the
  // words, and no telephone number of the laboratory without its hours.
  void fits_on_every_leaf() {
    constexpr int most_leaves = 10;
    for (int panel = 0; panel < most_leaves; ++panel) {
      CHECK(h.faults() == std::vector<std::string>{});
      for (const element& e : h.seen().elements)
        CHECK((e.name + e.value).find_first_of("[]{}") == std::string::npos);
      CHECK_FALSE(number_without_hours(h));
      if (h.find("page-more") == nullptr) return;
      REQUIRE(h.press("page-more"));
    }
  }

  screen what;
  made_view m;
  ui_state u;
  bool settles{false}; // each fact that is asked for becomes one in the same frame
  maybe_wish wished;
  harness h;
};

// Says no to every caution, from the first one's page on, or from who answers.
inline void say_no_to_cautions(stage& s) {
  if (s.shown() == "choose-answerer") REQUIRE(s.press("answers-person"));
  for (const caution& c : s.m.tests.front().test.cautions) {
    REQUIRE(s.shown() == "choose-cautions");
    CHECK(s.h.find("title")->name == c.question);
    REQUIRE(s.press("none-true"));
    s.settle();
  }
}

// All cautions of the first test and all its washouts, answered so that nothing stands against it.
inline void nothing_against(made_view& m) {
  for (const caution& c : m.tests.front().test.cautions)
    m.tell(reported_caution{c.why.rule, caution_answer::no, asked_outcome::not_asked, "", ""});
  for (const washout& w : m.tests.front().test.washouts)
    m.tell(reported_washout{{w.why.rule, washout_answer::never, {}, false}, ""});
}

inline void planned(made_view& m) {
  m.open();
  m.introduce();
  m.plan_for("2027-04-06 07:30");
}

// A draft that stops short of the cautions.
inline void drafted(ui_state& u) {
  u.drafts.plan.test = "lactulose-10g";
  u.drafts.plan.form = "syrup";
  u.drafts.plan.date = *parse_date("2027-04-06");
  u.drafts.plan.minute = 450;
  u.drafts.answers = answerer::person;
}

} // namespace qb::test
