// Answers before the plan, made up for the tests of its screens.
// Shared by the tests on cautions and those on medicines, hours and the start.
#pragma once

#include "app/patient/screens/plan/choose_pages.hpp"
#include "core/session/decide.hpp"
#include "tests/unit/screens/stage.hpp"

namespace qb::test {

// With the test and its form chosen; the first caution is asked.
inline void at_the_questions(stage& s) {
  s.m.open();
  s.m.introduce();
  drafted(s.u);
}

// After a yes to one that is to be asked about.
inline void yes_to_diabetes(stage& s) {
  at_the_questions(s);
  s.u.nav.page = caution_page{"ask-diabetes"};
  REQUIRE(s.press("one-true"));
  s.settle();
}

inline const protocol& first_test(const stage& s) {
  return s.m.tests.front().test;
}

// The question of that rule, which must be there, and its page.
inline const caution& question_of(const stage& s, const std::string& rule) {
  const caution* found = find_caution(first_test(s), rule);
  QB_BELIEVE(found != nullptr);
  return *found;
}
inline std::string question_one(const protocol& p) {
  return "Question 1 of " + std::to_string(p.cautions.size());
}

// With all answered, then one washout or caution as given.
inline void answered_but(stage& s, payload other) {
  at_the_questions(s);
  test::nothing_against(s.m);
  s.u.drafts.plan.home.days.any = true;
  s.u.drafts.plan.home.answered = true;
  s.m.tell(std::move(other));
}

inline payload diabetes(caution_answer answer) {
  return reported_caution{"ask-diabetes", answer, asked_outcome::not_asked, "", ""};
}

inline payload washed(const std::string& rule, washout_answer answer, const char* on = nullptr) {
  std::optional<civil_date> day;
  if (on != nullptr) day = *parse_date(on);
  return reported_washout{{rule, answer, day, false}, ""};
}

inline void say_who(stage& s, const std::string& who) {
  CHECK(s.shown() == "choose-who-said");
  CHECK_FALSE(s.press("next"));
  REQUIRE(s.press("who-" + who));
  REQUIRE(s.press("next"));
}

inline bool a_plan_is_refused(const stage& s) {
  const plan_made wanted{s.m.tests.front().canonical_text, "syrup",
                         *make_plan(first_test(s), s.m.instant_of("2027-05-06 07:30"), s.m.z)};
  return !decide(s.m.s, command{wanted}, s.m.at);
}

} // namespace qb::test
