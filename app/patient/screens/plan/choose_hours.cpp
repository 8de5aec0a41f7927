// When the person can be at home and awake: any day, or some weekdays and hours.
// It binds nobody; the start that is offered keeps to it.
#include "app/patient/screens/plan/choose_pages.hpp"

#include <optional>
#include <set>

namespace qb::inline screens {

namespace {

using page = plan_page;

constexpr int last_weekday = 7; // 1 Monday

constexpr int minutes_in_day = 24 * 60;
constexpr int stride = 30; // minutes; a press of the stepper
constexpr int usually_up = 6 * 60;
constexpr int usually_free = 22 * 60;

int from_of(const home_draft& home) {
  return home.from.value_or(usually_up);
}
int to_of(const home_draft& home) {
  return home.to.value_or(usually_free);
}

// From the hour in which one must be awake to the last sample.
std::chrono::minutes needed(const protocol& p) {
  std::chrono::minutes awake{0};
  if (const preparation_window* w = find_window(p, "awake")) awake = w->from;
  return p.offsets.back() + awake;
}

std::string hours_words(const view& v, const protocol& p) {
  return v.t("screening.hours.length",
             {{"n", std::to_string(std::chrono::ceil<std::chrono::hours>(needed(p)).count())}});
}

std::string clock_words(int minute) {
  if (minute >= minutes_in_day) return "24:00";
  return clock_text(at(civil_date{}, minute / 60, minute % 60));
}

void answered(ui_state& u) {
  u.drafts.plan.home.answered = true;
  u.nav.page = page::start;
  offer_anew(u);
}

} // namespace

bool reported_hours(const ui_state& u) {
  return u.drafts.plan.home.answered;
}

void add_hours(const home_draft& home, circumstances& c) {
  const std::set<int>& weekdays = home.days.weekdays;
  if (!home.answered || home.days.any || weekdays.empty()) return;
  if (weekdays.size() < last_weekday)
    c.home.push_back(
        home_hours{weekdays, {std::chrono::minutes{0}, std::chrono::minutes{minutes_in_day}}});
  c.awake = day_hours{std::chrono::minutes{from_of(home)}, std::chrono::minutes{to_of(home)}};
}

maybe_wish draw_hours(toolkit& k, const view& v, ui_state& u, const protocol& p,
                      const page_behind& back_page) {
  bool any = false;
  bool some = false;
  ways_back ways;
  const auto content = [&] {
    headline(k, "title", v.t("screening.hours.title", {{"length", hours_words(v, p)}}));
    picture(k, "picture", picture_of::calendar, v.t("screening.hours.picture"), true);
    paragraph(k, "why", v.t("screening.hours.why"));
  };
  const auto actions = [&] {
    any = primary_button(k, "any-day", v.t("screening.hours.any"));
    some = secondary_button(k, "some-days", v.t("screening.hours.some"));
    ways = draw_ways_back(k, v, u, back_page.has_value());
  };
  auto out = framed_page(k, v, "choose-hours", content, actions);
  if (any) {
    u.drafts.plan.home.days = {};
    u.drafts.plan.home.days.any = true;
    answered(u);
  }
  if (some) u.nav.page = page::days;
  if (ways.back) u.nav.page = *back_page;
  if (ways.cancel) leave_choosing(u);
  return out;
}

maybe_wish draw_days(toolkit& k, const view& v, ui_state& u, const protocol& p) {
  home_days& days = u.drafts.plan.home.days;
  std::optional<int> turned;
  bool on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("screening.days.title", {{"length", hours_words(v, p)}}));
    for (int day = 1; day <= last_weekday; ++day) {
      const std::string one = std::to_string(day);
      if (check_row(k, "day-" + one, v.t("prepare.weekday." + one), days.weekdays.count(day) > 0))
        turned = day;
    }
  };
  const auto actions = [&] {
    if (days.weekdays.empty()) {
      waiting_button(k, "next", v.t("screening.days.one"));
    } else {
      on = primary_button(k, "next", v.t("common.next"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-days", content, actions);
  if (turned && days.weekdays.erase(*turned) == 0) days.weekdays.insert(*turned);
  if (turned || on) days.any = false;
  if (on) u.nav.page = page::times;
  if (back) u.nav.page = page::hours;
  return out;
}

maybe_wish draw_times(toolkit& k, const view& v, ui_state& u, const protocol& p) {
  const int long_enough = static_cast<int>(needed(p).count());
  home_draft& home = u.drafts.plan.home;
  const int from = from_of(home);
  const int to = to_of(home);
  int earlier = 0;
  int later = 0;
  bool on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("screening.times.title"));
    earlier = stepper(k, "home-from", v.t("screening.times.from"), clock_words(from), from == 0,
                      from + stride + long_enough > to);
    later = stepper(k, "home-to", v.t("screening.times.to"), clock_words(to),
                    to - stride - long_enough < from, to >= minutes_in_day);
    paragraph(k, "why", v.t("screening.times.why", {{"length", hours_words(v, p)}}));
  };
  const auto actions = [&] {
    on = primary_button(k, "next", v.t("common.next"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-times", content, actions);
  if (earlier != 0) home.from = from + earlier * stride;
  if (later != 0) home.to = to + later * stride;
  if (on) answered(u);
  if (back) u.nav.page = page::days;
  return out;
}

} // namespace qb::inline screens
