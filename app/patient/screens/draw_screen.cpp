// Which screen is shown: the side page that is open, else the screen of the step.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"

namespace qb::inline screens {

namespace {

using screen = maybe_wish (*)(toolkit&, const view&, ui_state&);

screen screen_of(side_page open) {
  switch (open) {
  case side_page::none: return nullptr;
  case side_page::who: return draw_who;
  case side_page::choose: return draw_choose;
  case side_page::timeline: return draw_timeline;
  case side_page::slip: return draw_slip;
  case side_page::evening: return draw_evening;
  case side_page::morning: return draw_morning;
  case side_page::foods: return draw_foods;
  case side_page::low_sugar: return draw_low_sugar;
  case side_page::call_off: return draw_call_off;
  case side_page::history: return draw_history;
  case side_page::reminders: return draw_reminders;
  case side_page::labels: return draw_labels_ahead;
  case side_page::gate: return draw_gate;
  case side_page::mishap: return draw_mishap;
  case side_page::tell: return draw_tell;
  case side_page::comment: return draw_comment;
  case side_page::copy: return draw_copy;
  case side_page::pack: return draw_pack;
  case side_page::hand_over: return draw_hand_over;
  case side_page::code: return draw_code;
  case side_page::papers: return draw_papers;
  case side_page::erase: return draw_erase;
  case side_page::erased: return draw_erased;
  case side_page::label_again: return draw_label_again;
  case side_page::put_right: return draw_put_right;
  case side_page::broken: return draw_broken;
  case side_page::drink_told: return draw_reported_drink;
  case side_page::no_baseline: return draw_no_baseline;
  case side_page::drink_trouble: return draw_drink_trouble;
  case side_page::scorer: return draw_scorer;
  case side_page::drink_again: return draw_drink_again;
  case side_page::drink_part: return draw_drink_part;
  case side_page::unwell: return draw_unwell;
  case side_page::returned: return draw_return;
  case side_page::salvaged: return draw_salvaged;
  case side_page::scores_later: return draw_scores_later;
  }
  QB_BELIEVE(false);
  return nullptr;
}

screen screen_of(const view& v) {
  if (!v.s.opening) return draw_agree;
  switch (v.now.what) {
  case step::who: return draw_who;
  case step::choose: return draw_choose;
  case step::prepare: return draw_prepare;
  case step::gate: return draw_gate;
  case step::held: return draw_held;
  case step::sugar: return draw_sugar;
  case step::symptoms: return draw_symptoms;
  case step::red_flags: return draw_red_flags;
  case step::wait:
  case step::heads_up: return draw_wait;
  case step::breathe: return draw_breathe;
  case step::lead_in:
  case step::hold_breath:
  case step::blowing:
  case step::close: return draw_breath;
  case step::unsure: return draw_unsure;
  case step::label: return draw_label;
  case step::drink:
  case step::drinking: return draw_drink;
  case step::unwell: return draw_unwell;
  case step::rest: return draw_rest;
  case step::symptoms_after: return draw_symptoms_after;
  case step::finish: return draw_finish;
  }
  QB_BELIEVE(false);
  return draw_finish;
}

// A side page gives way to what cannot wait: a breath, a due tube, feeling unwell, what stands
// against going on. Whose test it is, and that its record was damaged, is read before a due tube is
// blown and before an answer is shown: these pages name the tube, and are one press long.
bool cannot_wait(const now_answer& a, side_page open) {
  const bool one_press = open == side_page::returned || open == side_page::salvaged;
  switch (a.what) {
  case step::lead_in:
  case step::hold_breath:
  case step::blowing:
  case step::close:
  case step::unwell: return true;
  case step::held: return !one_press;
  case step::breathe: return a.to_due && *a.to_due <= duration{0} && !one_press;
  default: return false;
  }
}

} // namespace

maybe_wish draw_screen(toolkit& k, const view& v, ui_state& u) {
  if (v.on_paper && u.nav.open != side_page::unwell) return draw_on_paper(k, v, u);
  // Pages of one step must not leak into the next, nor half of an answer.
  const test_place here{v.now.what, v.now.sample, v.now.held_by};
  if (u.nav.came_from != here) {
    u.nav.came_from = here;
    u.drafts.taking_back.reset();
    u.drafts.taking_back_washout.reset();
    u.drafts.taking_back_packet = false;
    if (!u.nav.is_side()) u.nav.page = {};
    if (cannot_wait(v.now, u.nav.open)) u.nav.close_side();
  }
  const screen shown = u.nav.is_side() ? screen_of(u.nav.open) : screen_of(v);
  return shown(k, v, u);
}

} // namespace qb::inline screens
