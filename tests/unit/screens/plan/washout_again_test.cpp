// A lighter answer about a medicine is asked once more before it is told.
#include "tests/unit/screens/plan/screening.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// At the question of a medicine that was told as going on.
void at_a_medicine_that_goes_on(stage& s) {
  answered_but(s, washed("laxatives", washout_answer::cannot_stop));
  s.settles = true;
  s.u.nav.page = medicine_page{"laxatives"};
  REQUIRE(s.shown() == "choose-laxatives");
}

} // namespace

TEST_CASE("no after a medicine that goes on shows the whole question again, with both answers") {
  stage s(draw_choose);
  at_a_medicine_that_goes_on(s);
  REQUIRE(s.press("dose-none"));
  CHECK_FALSE(s.wished);
  CHECK(s.shown() == "answer-again");
  const washout& asked = *find_washout(first_test(s), "laxatives");
  CHECK(s.seek("title")->name == asked.question);
  CHECK(s.seek("which")->name == asked.which);
  CHECK(s.seek("both")->name.find("You said still taking it (") == 0);
  CHECK(s.seek("both")->name.find("and now not in that time. Which one is right?") !=
        std::string::npos);
  SECTION("it was meant") {
    REQUIRE(s.press("again-now"));
    const auto* told = s.asked<reported_washout>();
    REQUIRE(told != nullptr);
    CHECK(told->what.answer == washout_answer::never);
    CHECK(told->asked_again);
    CHECK(find_noted_washout(s.m.s, "laxatives")->earlier.size() == 1);
  }
  SECTION("it was not") {
    REQUIRE(s.press("again-earlier"));
    CHECK_FALSE(s.wished);
    CHECK(s.shown() == "choose-laxatives");
    CHECK(find_noted_washout(s.m.s, "laxatives")->what.what.answer == washout_answer::cannot_stop);
  }
}

TEST_CASE("an earlier last day is asked once more, a later one is told at once") {
  stage s(draw_choose);
  answered_but(s, washed("laxatives", washout_answer::last_on, "2027-03-30"));
  s.settles = true;
  s.u.nav.page = medicine_page{"laxatives", medicine_part::last_dose};
  s.u.drafts.plan.medicines["laxatives"].ends = medicine_end::no_longer;
  const bool earlier = GENERATE(true, false);
  REQUIRE(s.press(earlier ? "dose-day-less" : "dose-day-more"));
  REQUIRE(s.press("next"));
  CHECK(s.wished.has_value() != earlier);
  if (!earlier) return;
  CHECK(s.shown() == "answer-again");
  CHECK(s.seek("again-now")->name.find("29 March") != std::string::npos);
  REQUIRE(s.press("again-now"));
  REQUIRE(s.asked<reported_washout>() != nullptr);
  CHECK(date_text(*s.asked<reported_washout>()->what.on) == "2027-03-29");
  CHECK(s.asked<reported_washout>()->asked_again);
}
