// A plan that stands, and something told since that must be asked about; a plan that is called off.
// What was told must not be forgotten because a date was chosen before.
#include "tests/unit/screens/diet_pages.hpp"
#include "tests/unit/screens/plan/screening.hpp"

using namespace qb;
using namespace qb::test;

TEST_CASE("what was told after the plan and must be asked about stands on the home screen") {
  const payload told[] = {diabetes(caution_answer::yes),
                          washed("laxatives", washout_answer::cannot_stop)};
  for (const payload& fact : told) {
    for (const auto& [width, height] : {std::pair{360, 640}, {480, 800}, {800, 480}}) {
      stage s(draw_prepare, static_cast<float>(width), static_cast<float>(height));
      living_at(s, "2027-04-03 09:00");
      s.h.frames(1);
      CHECK(s.h.find("ask") == nullptr);
      s.m.tell(fact);
      s.h.frames(2);
      REQUIRE(s.h.find("ask") != nullptr);
      CHECK(wrong_on(s.h) == std::vector<std::string>{});
      REQUIRE(s.press("open-ask"));
      CHECK(s.u.nav.open == side_page::choose);
    }
  }
}

TEST_CASE("after a call-off the start's page says so, and that it can be planned again") {
  for (const auto& [width, height] : {std::pair{360, 640}, {480, 800}, {800, 480}}) {
    stage s(draw_choose, static_cast<float>(width), static_cast<float>(height));
    answered_but(s, washed("laxatives", washout_answer::never));
    s.m.plan_for("2027-05-06 07:30");
    s.m.tell(plan_called_off{"a cold"});
    s.m.preview_of("2027-05-06 07:30");
    s.h.frames(2);
    REQUIRE(s.shown() == "choose-start");
    REQUIRE(s.h.find("called-off") != nullptr);
    CHECK(wrong_on(s.h) == std::vector<std::string>{});
  }
}
