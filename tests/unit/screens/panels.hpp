// A page looked at leaf by leaf: that all of it fits, and that its words are sentences.
// Shared by the tests that hold every page against every promised window.
#pragma once

#include "tests/unit/screens/stage.hpp"

#include <set>

namespace qb::test {

// What is wrong with the page shown: its faults, and words that are no sentence yet.
inline std::vector<std::string> wrong_on(const harness& h) {
  std::vector<std::string> out = h.faults();
  for (const element& e : h.seen().elements) {
    for (const std::string& text : {e.name, e.value}) {
      if (text.find('[') != std::string::npos || text.find('{') != std::string::npos)
        out.push_back(e.key + " shows " + text);
    }
  }
  if (number_without_hours(h)) out.emplace_back("a telephone number without its hours");
  return out;
}

// Shows the page that `set` makes, on its first leaf, in a view and a state of their own. One
// window serves all pages of a size, since fonts are what takes time.
template <typename Set>
void show_afresh(stage& s, screen draw, const Set& set) {
  s.what = draw_agree; // between two pages, so that each begins on its first leaf
  s.m = {};
  s.u = {};
  s.h.frames(1);
  s.what = draw;
  s.wished.reset();
  set(s);
  s.h.frames(1);
}

// Looks at each element of the page shown, leaf after leaf.
template <class Look>
void each_element(stage& s, const Look& look) {
  const auto leaf = [&] {
    for (const element& e : s.h.seen().elements)
      look(e);
  };
  s.h.frames(1);
  while (s.h.find("page-back") != nullptr)
    REQUIRE(s.h.press("page-back"));
  leaf();
  while (s.h.find("page-more") != nullptr) {
    REQUIRE(s.h.press("page-more"));
    leaf();
  }
}

// What can be pressed on the page shown, over all of its leaves, but for what every page has.
inline std::set<std::string> offers_of(stage& s) {
  std::set<std::string> out;
  each_element(s, [&](const element& e) {
    const bool frame = e.key == "unwell" || e.key == "page-more" || e.key == "page-back";
    const bool pressable = e.role == "button" || e.role == "link" || e.role == "choice" ||
                           e.role == "check" || e.role == "textbox";
    if (pressable && !frame && e.state != "waiting") out.insert(e.key);
  });
  return out;
}

// Looks at the page shown and turns its leaves to the last.
inline void look_at_leaves(stage& s, const std::string& name) {
  INFO(name << ", " << s.h.seen().screen << " at " << s.h.seen().width << " wide");
  REQUIRE_FALSE(s.h.seen().elements.empty());
  CHECK(wrong_on(s.h) == std::vector<std::string>{});
  for (int panel = 0; s.h.find("page-more") != nullptr && panel < 10; ++panel) {
    REQUIRE(s.h.press("page-more"));
    CHECK(wrong_on(s.h) == std::vector<std::string>{});
  }
  CHECK_FALSE(s.wished);
}

} // namespace qb::test
