// "I feel unwell": safety first. What to do now, whom to call, and the ways on.
#include "app/patient/screens/shared.hpp"

namespace qb {

namespace {

struct pressed {
  bool over{false};
  bool stop{false};
  bool sure{false};
  bool back{false};
  bool move{false};
};

std::string laboratory_words(const view& v) {
  return v.t("unwell.laboratory",
             {{"lab", v.lab.name}, {"tel", v.lab.telephone}, {"hours", v.lab.telephone_hours}});
}

void what_to_do(toolkit& k, const view& v) {
  headline(k, "title", v.t(v.s.grid && !v.s.ended ? "unwell.title" : "unwell.title.rest"));
  strong(k, "eat", v.t("unwell.eat"));
  notice(k, "emergency", notice_kind::needs_you,
         v.t("unwell.emergency", {{"call", v.lab.emergency}}));
  paragraph(k, "do", v.t("unwell.do"));
  quiet_text(k, "laboratory", laboratory_words(v));
  if (v.s.grid && !v.s.ended) quiet_text(k, "pause", v.t("unwell.pause"));
  picture(k, "picture", picture_of::rest, v.t("unwell.picture"), true);
}

void ways_on(toolkit& k, const view& v, pressed& p) {
  const bool can_stop = v.s.grid && !v.s.ended;
  const bool can_move = v.s.planned && !v.s.grid && !v.s.ended;
  if (can_stop) { // neither way is urged
    p.over = secondary_button(k, "unwell-over", v.t("unwell.over"));
    p.stop = secondary_button(k, "stop-test", v.t("unwell.stop"));
  } else {
    p.over = secondary_button(k, "unwell-over", v.t("unwell.back"));
    if (can_move) p.move = secondary_button(k, "unwell-move", v.t("unwell.move"));
    if (can_move) p.stop = quiet_button(k, "stop-test", v.t("unwell.stop"));
  }
}

} // namespace

maybe_wish draw_unwell(toolkit& k, const view& v, ui_state& u) {
  pressed p;
  const bool asking = u.nav.page_in<unwell_page>() == unwell_page::stop;
  const auto content = [&] {
    if (!asking) return what_to_do(k, v);
    headline(k, "title", v.t("unwell.stop-title"));
    paragraph(k, "what", v.t("unwell.stop-what"));
    quiet_text(k, "laboratory", laboratory_words(v));
  };
  const auto actions = [&] {
    if (!asking) return ways_on(k, v, p);
    p.sure = primary_button(k, "stop-sure", v.t("unwell.stop-sure"));
    p.back = secondary_button(k, "stop-back", v.t("common.back"));
  };
  page_options o;
  o.screen = asking ? "unwell-stop" : "unwell";
  o.turn = o.screen;
  o.practice = v.practice;
  o.unwell = false; // this screen is the answer to it
  o.actions_on_all = true;
  k.page(o, content, actions);
  if (p.stop) u.nav.page = unwell_page::stop;
  if (p.back) u.nav.page = unwell_page::what_to_do;
  if (p.over || p.move) u.nav.open_side(p.move ? side_page::choose : side_page::none);
  if ((p.over || p.move) && v.s.unwell) return wish{payload{unwell_over{}}};
  if (p.sure) return wish{payload{test_ended{"unwell"}}};
  return std::nullopt;
}

} // namespace qb
