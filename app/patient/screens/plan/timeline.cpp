// The whole plan on one line of time, and what holds during the test.
#include "app/patient/screens/plan_words.hpp"

namespace qb::inline screens {

maybe_wish draw_timeline(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.planned && v.s.test);
  bool close = false;
  const auto content = [&] {
    headline(k, "title", v.t("timeline.title"));
    timeline(k, "plan", plan_moments(v, *v.s.test, v.s.planned->what));
    heading(k, "during-title", v.t("timeline.during"));
    const auto rules = during_test_texts(*v.s.test, v.lab);
    for (std::size_t i = 0; i < rules.size(); ++i)
      paragraph(k, "during-" + std::to_string(i + 1), rules[i]);
    quiet_text(k, "zone", v.t("timeline.zone", {{"zone", zone_words(v.z.name())}}));
    if (v.s.planned->what.zone_name != v.z.name())
      quiet_text(k, "plan-zone",
                 v.t("screening.plan-zone", {{"zone", zone_words(v.s.planned->what.zone_name)}}));
  };
  const auto actions = [&] { close = primary_button(k, "close", v.t("common.close")); };
  auto out = framed_page(k, v, "timeline", content, actions);
  if (close) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
