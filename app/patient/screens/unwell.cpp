// "I feel unwell": safety first. What to do now, whom to call, and two ways on.
#include "app/patient/screens/shared.hpp"

namespace qb {

maybe_wish draw_unwell(kit& k, const view& v, ui_state& u) {
  bool on = false;
  bool stop = false;
  bool sure = false;
  bool back = false;
  const bool asking = u.page == 1;
  const auto content = [&] {
    headline(k, "title", v.t(asking ? "unwell.stop-title" : "unwell.title"));
    if (asking) {
      paragraph(k, "what", v.t("unwell.stop-what"));
      return;
    }
    strong(k, "eat", v.t("unwell.eat"));
    notice(k, "emergency", notice_kind::needs_you,
           v.t("unwell.emergency", {{"call", v.lab.emergency}}));
    picture(k, "picture", picture_of::rest, v.t("unwell.picture"), true);
    paragraph(k, "do", v.t("unwell.do"));
    quiet_text(
        k, "laboratory",
        v.t("unwell.laboratory",
            {{"lab", v.lab.name}, {"tel", v.lab.telephone}, {"hours", v.lab.telephone_hours}}));
  };
  const auto actions = [&] {
    if (asking) {
      sure = primary_button(k, "stop-sure", v.t("unwell.stop-sure"));
      back = secondary_button(k, "stop-back", v.t("common.back"));
    } else {
      on = primary_button(k, "unwell-over", v.t("unwell.over"));
      if (v.s.planned) stop = secondary_button(k, "stop-test", v.t("unwell.stop"));
    }
  };
  page_options o;
  o.screen = asking ? "unwell-stop" : "unwell";
  o.turn = o.screen;
  o.practice = v.practice;
  o.unwell = false; // this screen is the answer to it
  o.actions_on_all = true;
  k.page(o, content, actions);
  if (stop) u.page = 1;
  if (back) u.page = 0;
  if (on) return wish{payload{unwell_over{}}};
  if (sure) return wish{payload{test_ended{"unwell"}}};
  return std::nullopt;
}

} // namespace qb
