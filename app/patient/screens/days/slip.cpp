// Something of the preparation was not kept: what, when, in the person's own words if they like.
// It is thanked for, and what it means is said honestly.
#include "app/patient/screens/days/slip_pages.hpp"
#include "core/session/limits.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

using page = slip_page;

using std::chrono::minutes;
constexpr minutes stride{15}; // a step of the time, as people tell one

instant this_minute(const view& v) {
  return std::chrono::floor<minutes>(v.at.wall);
}

instant chosen_time(const view& v, const ui_state& u) {
  return std::min(u.drafts.slip.at.value_or(this_minute(v)), this_minute(v));
}

void put_time(const view& v, ui_state& u, instant t) {
  u.drafts.slip.at = std::min(t, this_minute(v));
}

// How far back a day can be told: as far as the rule looks, else two days.
duration reaches_back(const view& v, const ui_state& u) {
  constexpr std::chrono::days two_days{2};
  const washout* w = find_washout(*v.s.test, u.drafts.slip.rule);
  return w == nullptr ? duration{two_days} : duration{w->days};
}

maybe_wish draw_when(toolkit& k, const view& v, ui_state& u) {
  const instant t = chosen_time(v, u);
  const bool is_today = date_of(v.z.civil_at(t)) == today(v);
  constexpr std::chrono::days day{1};
  int days = 0;
  int time = 0;
  bool on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("slip.when-title"));
    days = stepper(k, "slip-day", v.t("slip.day"),
                   v.t(is_today ? "slip.today" : "slip.before",
                       {{"day", day_words(v, date_of(v.z.civil_at(t)))}}),
                   this_minute(v) - t > reaches_back(v, u), is_today);
    time = stepper(k, "slip-time", v.t("slip.time"), clock_of(v, t), false, t >= this_minute(v));
    quiet_text(k, "about", v.t("slip.about"));
  };
  const auto actions = [&] {
    on = primary_button(k, "next", v.t("common.next"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "slip-when", content, actions);
  if (days != 0) put_time(v, u, t + days * day);
  if (time != 0) {
    const instant quarter = std::chrono::floor<minutes>(t) - t.time_since_epoch() % stride;
    const bool whole = quarter == t;
    put_time(v, u, time > 0 ? quarter + stride : whole ? quarter - stride : quarter);
  }
  if (on) {
    put_time(v, u, t);
    u.nav.page = page::words;
  }
  if (back) u.nav.page = page::what;
  return out;
}

maybe_wish draw_words(toolkit& k, const view& v, ui_state& u) {
  slip_draft& slip = u.drafts.slip;
  const instant t = chosen_time(v, u);
  bool tell = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("slip.check-title"));
    facts(k, "slip",
          {{v.t("slip.what"), slip_words(v, slip.rule, slip.subject)},
           {v.t("slip.when"), when(v, t)}});
    (void)text_field(
        k, "slip-words",
        {v.t("slip.words"), v.t("slip.words.hint"), "", text_kind::plain, longest_comment},
        slip.words);
  };
  const auto actions = [&] {
    tell = primary_button(k, "tell", v.t("slip.tell"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "slip-words", content, actions);
  if (back) {
    slip.told = false;
    u.nav.page = page::when;
  }
  if (tell) {
    slip.told = true;
    return wish{payload{reported_slip{slip.rule, t, how_known::told, slip.words, slip.subject}}};
  }
  return out;
}

// What was told as it stands in the record, if it does: thanks are for that only.
const reported_slip* recorded(const view& v, const ui_state& u) {
  const slip_draft& slip = u.drafts.slip;
  const instant t = chosen_time(v, u);
  for (const noted_slip& s : v.s.slips) {
    if (s.what.rule == slip.rule && s.what.subject == slip.subject && s.what.when == t)
      return &s.what;
  }
  return nullptr;
}

} // namespace

maybe_wish draw_slip(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.test && v.s.planned);
  if (u.drafts.slip.rule.empty()) return draw_slip_what(k, v, u);
  // Thanks do not hang on a page that is turned: once told and in the record, they are due.
  const reported_slip* told = recorded(v, u);
  if (u.drafts.slip.told && told != nullptr) return draw_slip_thanks(k, v, u, *told);
  const page shown = u.nav.page_in<page>();
  if (shown == page::when) return draw_when(k, v, u);
  if (shown == page::words) return draw_words(k, v, u);
  return draw_slip_what(k, v, u);
}

} // namespace qb::inline screens
