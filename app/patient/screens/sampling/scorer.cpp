// Who gives the scores: the person, or somebody for them. Asked once, and it can be changed.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"

namespace qb::inline screens {

maybe_wish draw_scorer(toolkit& k, const view& v, ui_state& u) {
  bool self = false;
  bool other = false;
  const auto content = [&] {
    headline(k, "title", v.t("scorer.title"));
    paragraph(k, "what", v.t("scorer.what"));
  };
  const auto actions = [&] {
    self = secondary_button(k, "scored-self", v.t("scorer.self"));
    other = secondary_button(k, "scored-for", v.t("scorer.other"));
  };
  auto out = framed_page(k, v, "scorer", content, actions, page_kind::guided);
  if (!self && !other) return out;
  if (u.nav.open == side_page::scorer) u.nav.close_side();
  return wish{payload{reported_scorer{self, ""}}};
}

} // namespace qb::inline screens
