// Finding the rule a slip touches, and the arithmetic of what is kept.
#include "core/session/slip_meaning.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline sessions {

namespace {

const planned_window* planned_of(const plan& p, const std::string& rule) {
  const auto found = std::find_if(p.windows.begin(), p.windows.end(),
                                  [&](const planned_window& w) { return w.rule == rule; });
  return found == p.windows.end() ? nullptr : &*found;
}

// Where a window ends when the test starts at `start`: those up to the start move with it.
instant end_of(const plan& p, const planned_window& w, instant start) {
  return w.until == p.start ? start : std::min(w.until, start);
}

// What was told for the very moment of the start is not kept until then.
bool holds_at(const plan& p, const planned_window& w, instant t, instant start) {
  const instant end = end_of(p, w, start);
  return w.from <= t && (t < end || (t == end && end == start));
}

// The window that a slip at its time touches. Food is food: told under one window that says what
// may be eaten, it touches whichever holds at its time and lets nothing be eaten. While a list may
// be eaten, food told under another window is taken to be from that list.
const planned_window* touched_window(const protocol& p, const plan& planned,
                                     const reported_slip& told, instant start) {
  const preparation_window* rule = find_window(p, told.rule);
  if (rule == nullptr) return nullptr;
  const planned_window* own = planned_of(planned, told.rule);
  if (own != nullptr && holds_at(planned, *own, told.when, start)) return own;
  if (!rule->eat) return nullptr;
  for (const planned_window& w : planned.windows) {
    const preparation_window* other = find_window(p, w.rule);
    const bool about_food = other != nullptr && other->eat && other->eat->empty();
    if (about_food && holds_at(planned, w, told.when, start)) return &w;
  }
  return nullptr;
}

std::optional<consequence> weight_of(duration kept, duration asked, duration least) {
  if (kept >= asked) return std::nullopt;
  return kept < least ? consequence::review : consequence::note;
}

slip_meaning of_window(const state& s, const planned_window& w, const reported_slip& told,
                       instant start) {
  const preparation_window& rule = *find_window(*s.test, w.rule);
  slip_meaning out;
  out.rule = w.rule;
  out.start = start;
  out.asked = rule.asked();
  out.least = rule.least;
  const duration kept =
      std::max(duration{0}, duration{end_of(s.planned->what, w, start) - told.when});
  out.kept = kept;
  out.weight = weight_of(kept, rule.asked(), rule.least);
  if (out.weight) out.full_from = told.when + rule.from;
  return out;
}

slip_meaning of_washout(const washout& w, const reported_slip& told, instant start, const zone& z) {
  slip_meaning out;
  out.rule = w.why.rule;
  out.start = start;
  out.in_days = true;
  out.asked = w.days;
  out.least = w.least;
  const civil_date day = date_of(z.civil_at(told.when));
  const auto days =
      std::chrono::local_days{date_of(z.civil_at(start))} - std::chrono::local_days{day};
  const duration kept = std::max(duration{0}, duration{days});
  out.kept = kept;
  out.weight = weight_of(kept, w.days, w.least);
  if (out.weight) out.full_from = first_instant_of_day(plus_days(day, w.days), z);
  return out;
}

} // namespace

instant first_instant_of_day(civil_date date, const zone& z) {
  const civil_meaning meaning = z.meaning_of(at(date, 0, 0));
  if (const auto* one = std::get_if<unique_time>(&meaning)) return one->at;
  if (const auto* two = std::get_if<twofold_time>(&meaning)) return two->first;
  return std::get<missing_time>(meaning).jump;
}

std::string span_in_words(duration d, bool in_days) {
  const auto minutes = std::chrono::floor<std::chrono::minutes>(d);
  if (!in_days) return minutes.count() == 0 ? "0 min" : length_in_words(minutes);
  const auto days = std::chrono::floor<std::chrono::days>(d).count();
  return days == 1 ? "1 day" : fmt::format("{} days", days);
}

std::string slip_in_words(const protocol& p, const reported_slip& told) {
  if (const preparation_window* w = find_window(p, told.rule)) {
    for (const slip_subject& x : w->subjects) {
      if (x.id == told.subject) return x.text;
    }
    return w->name;
  }
  if (const washout* w = find_washout(p, told.rule)) return w->name;
  return told.rule == slip_medicine ? "a medicine" : "something else";
}

slip_meaning meaning_at(const state& s, const reported_slip& told, instant start, const zone& z) {
  QB_BELIEVE(s.planned && s.test);
  if (const washout* w = find_washout(*s.test, told.rule)) return of_washout(*w, told, start, z);
  if (const planned_window* w = touched_window(*s.test, s.planned->what, told, start))
    return of_window(s, *w, told, start);
  slip_meaning out;
  out.start = start;
  // Told outside every window it could touch, nothing changes; of what no rule names, only the
  // laboratory knows.
  if (find_window(*s.test, told.rule) == nullptr) out.weight = consequence::note;
  return out;
}

slip_meaning meaning_of(const state& s, const reported_slip& told, const clock_reading& now,
                        const zone& z) {
  QB_BELIEVE(s.planned && s.test);
  const instant start = s.grid ? s.grid->anchor.wall : std::max(s.planned->what.start, now.wall);
  return meaning_at(s, told, start, z);
}

} // namespace qb::inline sessions
