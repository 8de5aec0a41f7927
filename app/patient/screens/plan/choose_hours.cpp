// When the person can be at home and awake: any day, or some weekdays and hours.
// It binds nobody; the start that is offered keeps to it.
#include "app/patient/screens/plan/choose_pages.hpp"

#include <algorithm>
#include <charconv>

namespace qb {

namespace {

using page = plan_page;

using drafts_map = std::map<std::string, std::string>;

constexpr const char* days_key = "home.days"; // "any", or the figures of weekdays, 1 Monday
constexpr const char* from_key = "home.from"; // minutes after midnight
constexpr const char* to_key = "home.to";
constexpr const char* basis_key = "home.seen"; // "yes" once answered
constexpr const char* all_days = "1234567";
constexpr const char* no_days = "none";

constexpr int minutes_in_day = 24 * 60;
constexpr int stride = 30; // minutes; a press of the stepper
constexpr int usually_up = 6 * 60;
constexpr int usually_free = 22 * 60;

std::string drafted(const drafts_map& drafts, const char* key) {
  const auto found = drafts.find(key);
  return found == drafts.end() ? std::string{} : found->second;
}

int minutes_of(const drafts_map& drafts, const char* key, int otherwise) {
  const std::string text = drafted(drafts, key);
  int out = otherwise;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  return error == std::errc{} && out >= 0 && out <= minutes_in_day ? out : otherwise;
}

std::string ticked_days(const drafts_map& drafts) {
  const std::string text = drafted(drafts, days_key);
  return text == "any" || text.empty() ? all_days : text;
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
  u.text[basis_key] = "yes";
  u.nav.page = page::start;
  offer_anew(u);
}

} // namespace

bool reported_hours(const ui_state& u) {
  return draft_of(u, basis_key) == "yes";
}

void add_hours(const drafts_map& drafts, circumstances& c) {
  const std::string days = ticked_days(drafts);
  const bool any = drafted(drafts, days_key) == "any" || days == no_days;
  if (drafted(drafts, basis_key) != "yes" || any) return;
  if (days.size() < std::string(all_days).size()) {
    home_hours home{{}, {std::chrono::minutes{0}, std::chrono::minutes{minutes_in_day}}};
    for (const char day : days)
      home.weekdays.insert(day - '0');
    c.home.push_back(std::move(home));
  }
  c.awake = day_hours{std::chrono::minutes{minutes_of(drafts, from_key, usually_up)},
                      std::chrono::minutes{minutes_of(drafts, to_key, usually_free)}};
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
    u.text[days_key] = "any";
    answered(u);
  }
  if (some) u.nav.page = page::days;
  if (ways.back) u.nav.page = *back_page;
  if (ways.cancel) leave_choosing(u);
  return out;
}

maybe_wish draw_days(toolkit& k, const view& v, ui_state& u, const protocol& p) {
  std::string days = ticked_days(u.text);
  std::string turned;
  bool on = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("screening.days.title", {{"length", hours_words(v, p)}}));
    for (const char* day = all_days; *day != 0; ++day) {
      const std::string one(1, *day);
      if (check_row(k, "day-" + one, v.t("prepare.weekday." + one),
                    days.find(one) != std::string::npos))
        turned = one;
    }
  };
  const auto actions = [&] {
    if (days == no_days) {
      waiting_button(k, "next", v.t("screening.days.one"));
    } else {
      on = primary_button(k, "next", v.t("common.next"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "choose-days", content, actions);
  if (!turned.empty()) {
    std::string next;
    for (const char* day = all_days; *day != 0; ++day) {
      const bool is_on = days.find(*day) != std::string::npos;
      if (is_on != (turned.front() == *day)) next += *day;
    }
    u.text[days_key] = next.empty() ? no_days : next;
  }
  if (on) {
    u.text[days_key] = days;
    u.nav.page = page::times;
  }
  if (back) u.nav.page = page::hours;
  return out;
}

maybe_wish draw_times(toolkit& k, const view& v, ui_state& u, const protocol& p) {
  const int long_enough = static_cast<int>(needed(p).count());
  const int from = minutes_of(u.text, from_key, usually_up);
  const int to = minutes_of(u.text, to_key, usually_free);
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
  if (earlier != 0) u.text[from_key] = std::to_string(from + earlier * stride);
  if (later != 0) u.text[to_key] = std::to_string(to + later * stride);
  if (on) answered(u);
  if (back) u.nav.page = page::days;
  return out;
}

} // namespace qb
