// Why something told is put right: the laboratory should know whether a clock or a memory says so.
// A short list, since nobody likes to type; own words where nothing of it fits.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"
#include "core/session/limits.hpp"

#include <utility>

namespace qb::inline screens {

namespace {

const std::vector<std::string>& reasons() {
  static const std::vector<std::string> all{"pressed", "clock", "mixed", "later", "other"};
  return all;
}

asked_reason own_words(toolkit& k, const view& v, ui_state& u) {
  asked_reason out;
  bool done = false;
  bool back = false;
  std::string& own = u.drafts.own_reason;
  const auto content = [&] {
    headline(k, "title", v.t("right.why.own"));
    text_field(
        k, "right-own",
        {v.t("comment.label"), v.t("right.why.own.hint"), "", text_kind::plain, longest_comment},
        own);
  };
  const auto actions = [&] {
    if (own.empty()) {
      waiting_button(k, "right-own-done", v.t("right.why.own.empty"));
    } else {
      done = primary_button(k, "right-own-done", v.t("right.on"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  out.unwell = framed_page(k, v, "right-own", content, actions, page_kind::guided);
  if (back) u.nav.page = right_page::why;
  if (done) out.reason = std::exchange(own, std::string());
  return out;
}

} // namespace

asked_reason ask_reason(toolkit& k, const view& v, ui_state& u) {
  if (u.nav.page_in<right_page>() == right_page::own_words) return own_words(k, v, u);
  asked_reason out;
  std::optional<std::size_t> picked;
  const auto content = [&] {
    headline(k, "title", v.t("right.why"));
    std::vector<choice> choices;
    for (const std::string& r : reasons())
      choices.push_back({"why-" + r, v.t("right.why." + r), ""});
    picked = choice_list(k, "right", choices, "");
  };
  const auto actions = [&] { out.back = quiet_button(k, "back", v.t("common.back")); };
  out.unwell = framed_page(k, v, "right-why", content, actions, page_kind::guided);
  if (!picked) return out;
  if (reasons().at(*picked) == "other") {
    u.nav.page = right_page::own_words;
  } else {
    out.reason = v.t("right.why." + reasons().at(*picked));
  }
  return out;
}

} // namespace qb::inline screens
