// A score has risen markedly: the warning signs are asked in words. A score alone raises no alarm,
// and none of the signs leads on without a word more; any of them leads to what to do now.
#include "app/patient/screens/plan_words.hpp"
#include "app/patient/screens/shared.hpp"

#include <utility>

namespace qb::inline screens {

void sign_rows(toolkit& k, const view& v, ui_state& u) {
  headline(k, "title", v.t("red-flags.title"));
  for (const warning_sign& sign : v.s.test->warnings.signs) {
    if (check_row(k, sign.id, sign.text, is_ticked(u, sign.id))) turn_tick(u, sign.id);
  }
}

maybe_wish draw_red_flags(toolkit& k, const view& v, ui_state& u) {
  bool none = false;
  bool some = false;
  const auto content = [&] { sign_rows(k, v, u); };
  const auto actions = [&] {
    if (u.drafts.ticked.empty()) {
      none = primary_button(k, "red-flags-none", v.t("red-flags.none"));
    } else {
      some = primary_button(k, "red-flags-some", v.t("red-flags.some"));
    }
  };
  // The whole list is seen before it can be said that none of it is there; one sign is enough to
  // ask what to do.
  const page_kind kind = u.drafts.ticked.empty() ? page_kind::calm : page_kind::guided;
  auto out = framed_page(k, v, "red-flags", content, actions, kind);
  if (!none && !some) return out;
  const reported_red_flags told{*v.now.sample, std::exchange(u.drafts.ticked, {}), v.now.after};
  if (none) return wish{payload{told}};
  return wish{record_all{{told, reported_unwell{}}}};
}

} // namespace qb::inline screens
