// Calling the test off: free, at any time before tube 1, and not for ever. What was told stays.
#include "app/patient/screens/days/diet.hpp"
#include "core/session/limits.hpp"

#include <utility>

namespace qb::inline screens {

maybe_wish draw_call_off(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.planned);
  std::string& reason = u.drafts.call_off_reason;
  bool off = false;
  bool move = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.off"));
    paragraph(k, "what", v.t("living.off.what"));
    (void)text_field(
        k, "call-off-reason",
        {v.t("living.off.reason"), v.t("slip.words.hint"), "", text_kind::plain, longest_reason},
        reason);
  };
  const auto actions = [&] {
    back = primary_button(k, "back", v.t("living.off.keep"));
    move = secondary_button(k, "open-choose", v.t("gate.move"));
    off = secondary_button(k, "call-off", v.t("living.off.yes"));
  };
  auto out = framed_page(k, v, "call-off", content, actions);
  if (move) u.nav.open_side(side_page::choose);
  if (back) u.nav.close_side();
  if (!off) return out;
  const std::string why = std::exchange(reason, {});
  u.drafts.ticked.clear();
  u.nav.close_side();
  return wish{payload{plan_called_off{why}}};
}

} // namespace qb::inline screens
