// A stage brought to each point of a test, for the pages on which something is told or put right.
// Every point is reached by facts alone, so that a page can be shown without the way to it.
#pragma once

#include "tests/unit/screens/stage.hpp"

#include <string>
#include <vector>

namespace qb::test {

// Time passes, on both clocks.
inline void let_pass(stage& s, duration d) {
  s.m.at.wall += d;
  s.m.at.boot = boot_time{s.m.at.wall.time_since_epoch()};
  s.m.at.boot_id = "made-up";
  s.m.now = what_now(s.m.s, s.m.at);
}

inline void score(stage& s, int n, int points) {
  reported_symptoms told{sample_number(n), {}, ""};
  for (const symptom& asked : s.m.s.test->symptoms)
    told.scores.push_back({asked.id, points});
  s.m.tell(told);
}

inline void to_sugar(stage& s) {
  planned(s.m);
  s.m.go_to("2027-04-06 07:29");
  let_pass(s, duration{0});
  s.m.pass_the_gate();
}

inline void to_tube_1(stage& s) {
  to_sugar(s);
  s.m.tell(sugar_set_aside{});
  s.m.tell(reported_scorer{true, ""});
  score(s, 1, 0);
}

inline void blow(stage& s, int n) {
  s.m.tell(breath_begun{sample_number(n)});
  let_pass(s, s.m.s.profile->bounds.lead_in + s.m.s.test->breath_most);
  s.m.tell(tube_closed{sample_number(n)});
  s.m.tell(label_written{sample_number(n)});
}

inline void to_drink(stage& s) {
  to_tube_1(s);
  blow(s, 1);
}

inline void to_rest(stage& s) {
  to_drink(s);
  s.m.tell(drink_started{});
  let_pass(s, std::chrono::seconds{30});
  s.m.tell(drink_ended{true});
}

inline void tube(stage& s, int n, int points) {
  let_pass(s, *s.m.now.to_due);
  blow(s, n);
  score(s, n, points);
}

inline void to_after_three(stage& s) {
  to_rest(s);
  tube(s, 2, 1);
  tube(s, 3, 1);
}

// Presses one after the other; each must be there.
inline void press_all(stage& s, const std::vector<std::string>& keys) {
  for (const std::string& key : keys) {
    INFO(key);
    REQUIRE(s.press(key));
  }
}

// What is wrong with the page as it is drawn; nothing where it is whole.
inline std::vector<std::string> wrong_with(const test::harness& h) {
  std::vector<std::string> out = h.faults();
  for (const element& e : h.seen().elements) {
    if ((e.name + e.value).find_first_of("[{") != std::string::npos)
      out.push_back(e.key + " shows " + e.name + e.value);
  }
  if (number_without_hours(h)) out.emplace_back("a telephone number without its hours");
  return out;
}

// Opens the menu of what went wrong and presses a line of it, on whichever leaf it stands.
inline void choose_mishap(stage& s, const std::string& key) {
  s.u.nav.open_side(side_page::mishap);
  for (int panel = 0; panel < 6 && !s.press(key); ++panel)
    REQUIRE(s.press("page-more"));
}

} // namespace qb::test
