// Which screen is shown: the side page that is open, else the screen of the step.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"

#include <fmt/core.h>
#include <map>

namespace qb {

namespace {

using screen = maybe_wish (*)(toolkit&, const view&, ui_state&);

const std::map<std::string, screen>& side_pages() {
  static const std::map<std::string, screen> pages{{"who", draw_who},
                                                   {"choose", draw_choose},
                                                   {"timeline", draw_timeline},
                                                   {"slip", draw_slip},
                                                   {"evening", draw_evening},
                                                   {"morning", draw_morning},
                                                   {"foods", draw_foods},
                                                   {"low-sugar", draw_low_sugar},
                                                   {"call-off", draw_call_off},
                                                   {"history", draw_history},
                                                   {"reminders", draw_reminders},
                                                   {"labels", draw_labels_ahead},
                                                   {"gate", draw_gate},
                                                   {"mishap", draw_mishap},
                                                   {"tell", draw_tell},
                                                   {"comment", draw_comment},
                                                   {"copy", draw_copy},
                                                   {"pack", draw_pack},
                                                   {"hand-over", draw_hand_over},
                                                   {"code", draw_code},
                                                   {"papers", draw_papers},
                                                   {"erase", draw_erase},
                                                   {"erased", draw_erased},
                                                   {"label-again", draw_label_again},
                                                   {"put-right", draw_put_right},
                                                   {"broken", draw_broken},
                                                   {"drink-told", draw_reported_drink},
                                                   {"no-baseline", draw_no_baseline},
                                                   {"drink-trouble", draw_drink_trouble},
                                                   {"scorer", draw_scorer},
                                                   {"drink-again", draw_drink_again},
                                                   {"drink-part", draw_drink_part},
                                                   {"unwell", draw_unwell},
                                                   {"return", draw_return}};
  return pages;
}

screen screen_of(const view& v) {
  if (!v.s.opening) return draw_agree;
  switch (v.now.what) {
  case step::who: return draw_who;
  case step::choose: return draw_choose;
  case step::prepare: return draw_prepare;
  case step::gate:
  case step::held: return draw_gate;
  case step::sugar: return draw_sugar;
  case step::symptoms: return draw_symptoms;
  case step::red_flags: return draw_red_flags;
  case step::wait:
  case step::heads_up: return draw_wait;
  case step::breathe: return draw_breathe;
  case step::lead_in:
  case step::blowing:
  case step::close: return draw_breath;
  case step::unsure: return draw_unsure;
  case step::label: return draw_label;
  case step::drink:
  case step::drinking: return draw_drink;
  case step::unwell: return draw_unwell;
  case step::finish: return draw_finish;
  }
  QB_BELIEVE(false);
  return draw_finish;
}

// A side page gives way to what cannot wait: a breath, a due tube, feeling unwell. Whose test it is
// is confirmed before a due tube is blown: that page names the tube, and is one press long.
bool cannot_wait(const now_answer& a, const std::string& open) {
  switch (a.what) {
  case step::lead_in:
  case step::blowing:
  case step::close:
  case step::unwell: return true;
  case step::breathe: return a.to_due && *a.to_due <= duration{0} && open != "return";
  default: return false;
  }
}

} // namespace

maybe_wish draw_screen(toolkit& k, const view& v, ui_state& u) {
  // Drafts of one step must not leak into the next.
  const std::string here =
      fmt::format("{}-{}", static_cast<int>(v.now.what), v.now.sample ? v.now.sample->value() : 0);
  if (u.last_where != here) {
    u.last_where = here;
    u.page = u.open.empty() ? 0 : u.page;
    if (cannot_wait(v.now, u.open)) u.open.clear();
  }
  const auto side = side_pages().find(u.open);
  if (side != side_pages().end()) return side->second(k, v, u);
  return screen_of(v)(k, v, u);
}

} // namespace qb
