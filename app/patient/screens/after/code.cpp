// The result as a code on the screen: for a laboratory's scanner, with no network and no cable.
#include "app/patient/screens/shared.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

// What it is for, before it is shown: a page of its own, so that the code has the whole next one.
maybe_wish draw_about(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  bool back = false;
  const bool some = !v.codes.empty();
  const auto content = [&] {
    headline(k, "title", v.t("code.title"));
    if (!some) {
      paragraph(k, "none", v.t("code.none"));
      return;
    }
    paragraph(k, "what", v.t("code.what"));
    paragraph(k, "holds", v.t("code.holds"));
    strong(k, "paper", v.t("code.paper"));
  };
  const auto actions = [&] {
    if (some)
      on = primary_button(k, "show-code",
                          v.t.counted("code.show", static_cast<long long>(v.codes.size())));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "code", content, actions, page_kind::guided);
  if (on) u.nav.page = code_page{1};
  if (back) u.nav.close_side();
  return out;
}

} // namespace

maybe_wish draw_code(toolkit& k, const view& v, ui_state& u) {
  const std::size_t all = v.codes.size();
  const std::size_t shown = std::min(u.nav.page_in<code_page>().symbol, all);
  if (shown == 0) return draw_about(k, v, u);
  const std::string n = std::to_string(shown);
  bool on = false;
  bool back = false;
  const auto content = [&] {
    heading(k, "title",
            all == 1 ? v.t("code.hold")
                     : v.t("code.which", {{"n", n}, {"all", std::to_string(all)}}));
    code_picture(k, "code-" + n, v.t("code.picture"), v.codes.at(shown - 1));
  };
  const auto actions = [&] {
    on = primary_button(k, shown < all ? "next-code" : "code-done",
                        v.t(shown < all ? "code.next" : "common.done"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "code-" + n, content, actions, page_kind::whole);
  if (back) u.nav.page = code_page{shown - 1};
  if (on && shown < all) u.nav.page = code_page{shown + 1};
  if (on && shown == all) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
