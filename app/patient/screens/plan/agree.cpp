// The first page: what the program does, what is kept, and whose it is; nothing is kept before it.
#include "app/patient/screens/plan_words.hpp"

namespace qb::inline screens {

namespace {

// Whole days as days; what is not stays in hours.
std::string kept_for(const view& v, std::chrono::hours span) {
  constexpr int hours_in_day = 24;
  return span.count() % hours_in_day == 0 ? span_words(v, span) : length_in_words(span);
}

maybe_wish draw_what(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  bool practise = false;
  bool trial = false;
  const auto content = [&] {
    headline(k, "title", v.t("agree.title"));
    paragraph(k, "what", v.t("agree.what"));
    notice(k, "emergency", notice_kind::needs_you,
           v.t("agree.emergency", {{"call", v.lab.emergency}}));
    paragraph(k, "never", v.t("agree.never"));
  };
  const auto actions = [&] {
    on = primary_button(k, "next", v.t("agree.plan"));
    if (v.can_practise) {
      trial = secondary_button(k, "try-first", v.t("agree.try"));
      practise = quiet_button(k, "practise", v.t("agree.practise"));
    }
  };
  auto out = framed_page(k, v, "agree", content, actions, page_kind::guided);
  if (on) u.nav.page = agree_page::kept;
  if (trial) return wish{try_first{}};
  if (practise) return wish{begin_practice{}};
  return out;
}

maybe_wish draw_kept(toolkit& k, const view& v, ui_state& u) {
  bool agreed = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t(v.lab.kiosk ? "agree.kept-title.shared" : "agree.kept-title"));
    paragraph(k, "kept", v.t("agree.kept"));
    paragraph(k, "hand", v.t("agree.hand"));
    if (v.lab.kiosk) {
      const kiosk_terms& terms = *v.lab.kiosk;
      paragraph(k, "shared",
                v.t(terms.erase_after_handover ? "shared.agree" : "shared.agree.later",
                    {{"span", kept_for(v, terms.unhanded_after)}}));
    }
    paragraph(k, "erase", v.t("agree.erase"));
    quiet_text(k, "folder", v.kept_in);
  };
  const auto actions = [&] {
    agreed = primary_button(k, "agree", v.t("agree.agree"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  // What a shared device does is read before it is agreed to.
  const page_kind kind = v.lab.kiosk ? page_kind::calm : page_kind::guided;
  auto out = framed_page(k, v, "agree-kept", content, actions, kind);
  if (back) u.nav.page = agree_page::what;
  if (agreed) {
    u.nav.page = agree_page::what;
    return wish{payload{opened{}}};
  }
  return out;
}

} // namespace

maybe_wish draw_agree(toolkit& k, const view& v, ui_state& u) {
  return u.nav.page_in<agree_page>() == agree_page::kept ? draw_kept(k, v, u) : draw_what(k, v, u);
}

} // namespace qb::inline screens
