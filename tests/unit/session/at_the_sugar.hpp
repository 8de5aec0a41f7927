// Somebody at the sugar page of a test, and what can be told there. Shared by the tests of what is
// answered and those of what comes after the gate.
#pragma once

#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

namespace qb::test {

inline const instant start = utc("2027-04-06T06:30:00Z");

inline reported_caution said(const std::string& rule, caution_answer answer) {
  return {rule, answer, asked_outcome::not_asked, "", ""};
}
inline reported_caution released(const std::string& rule, releaser by) {
  return {rule, caution_answer::yes, asked_outcome::go_on, "Dr Ivo Brandreth", "", answerer::person,
          by};
}
// The whole question was shown once more.
inline reported_caution again(reported_caution x) {
  x.asked_again = true;
  return x;
}

// At the sugar page of that test, everything answered well.
struct at_the_sugar : patient {
  explicit at_the_sugar(const std::string& id = "lactulose-10g") {
    const protocol& p = shipped(id);
    QB_BELIEVE(tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
    QB_BELIEVE(tell(invented_person()));
    QB_BELIEVE(tell(plan_made{shipped_file(id), p.sugar.forms.back().form,
                              make_plan(p, start, zone_named("Europe/London")).value()}));
    clock.pass(utc("2027-04-06T06:28:00Z") - clock.wall());
    for (payload& told : gate_answers(current(), clock.look()))
      QB_BELIEVE(tell(std::move(told)));
  }
  // Every command that leads on from here is refused, and the page is not the sugar's.
  void is_held() {
    CHECK(refused(sugar_set_aside{}) != "");
    CHECK(refused(breath_begun{sample_number(1)}) != "");
    CHECK(refused(drink_started{}) != "");
    CHECK(now().what != step::sugar);
  }
};

} // namespace qb::test
