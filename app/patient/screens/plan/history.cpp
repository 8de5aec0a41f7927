// The starts that were planned before: when each was moved or called off, and why.
// Nothing told is lost by moving; this is where it can be seen.
#include "app/patient/screens/days/diet.hpp"

namespace qb::inline screens {

maybe_wish draw_history(toolkit& k, const view& v, ui_state& u) {
  bool done = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.history"));
    std::vector<moment> all;
    for (const earlier_plan& p : v.s.earlier_plans) {
      std::string words = v.t(p.called_off ? "living.history.off" : "living.history.moved",
                              {{"at", day_and_time(p.until.wall, v.at.wall, v.z)}});
      if (!p.reason.empty()) words += " " + v.t("living.history.reason", {{"why", p.reason}});
      all.push_back({start_words(v, p.what.what.start), words, moment_state::past});
    }
    if (v.s.planned)
      all.push_back(
          {start_words(v, v.s.planned->what.start), v.t("living.history.now"), moment_state::now});
    timeline(k, "start", all);
  };
  const auto actions = [&] { done = primary_button(k, "close", v.t("common.close")); };
  auto out = framed_page(k, v, "history", content, actions);
  if (done) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
