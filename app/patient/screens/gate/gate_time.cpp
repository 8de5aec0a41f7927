// Everything is ready and it is early: wait, or look at what a start now would cut short.
#include "app/patient/screens/gate/gate_pages.hpp"

namespace qb::inline screens {

maybe_wish draw_gate_time(toolkit& k, const view& v, ui_state& u) {
  const instant start = v.s.planned->what.start;
  if (v.at.wall >= start) { // the planned time has come while waiting
    u.nav.page = gate_page::check;
    return draw_gate_check(k, v, u);
  }
  bool now = false;
  bool jump = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.early.title", {{"start", start_words(v, start)}}));
    big_figure(k, "countdown", v.t("gate.left"), count_down(start - v.at.wall));
    paragraph(k, "rest", v.t("gate.early.rest"));
    paragraph(k, "goes-on", v.t("gate.early.goes-on", {{"start", clock_of(v, start)}}));
  };
  const auto actions = [&] {
    if (v.practice) jump = secondary_button(k, "jump", v.t("practice.jump"));
    now = quiet_button(k, "start-now", v.t("gate.early.now"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-early", content, actions);
  if (back) u.nav.page = gate_page::things;
  if (now) u.nav.page = gate_page::check;
  if (jump) return wish{jump_ahead{}};
  return out;
}

} // namespace qb::inline screens
