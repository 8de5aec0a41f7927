// The result as a code on the screen: for a laboratory's scanner, with no network and no cable.
#include "app/patient/screens/shared.hpp"

#include <algorithm>

namespace qb {

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
  if (on) u.page = 1;
  if (back) u.open.clear();
  return out;
}

} // namespace

maybe_wish draw_code(toolkit& k, const view& v, ui_state& u) {
  const auto all = static_cast<int>(v.codes.size());
  u.page = std::clamp(u.page, 0, all);
  if (u.page == 0) return draw_about(k, v, u);
  const std::string n = std::to_string(u.page);
  bool on = false;
  bool back = false;
  const auto content = [&] {
    heading(k, "title",
            all == 1 ? v.t("code.hold")
                     : v.t("code.which", {{"n", n}, {"all", std::to_string(all)}}));
    code_picture(k, "code-" + n, v.t("code.picture"),
                 v.codes.at(static_cast<std::size_t>(u.page) - 1));
  };
  const auto actions = [&] {
    on = primary_button(k, u.page < all ? "next-code" : "code-done",
                        v.t(u.page < all ? "code.next" : "common.done"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "code-" + n, content, actions, page_kind::whole);
  if (back) --u.page;
  if (on) u.page = u.page < all ? u.page + 1 : 0;
  if (on && u.page == 0) u.open.clear();
  return out;
}

} // namespace qb
