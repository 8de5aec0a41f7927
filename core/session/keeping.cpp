// The last entry found, the time since then added up, and held against the terms.
#include "core/session/keeping.hpp"

#include <algorithm>

namespace qb::inline sessions {

namespace {

// What the program writes by itself says nothing of a person who is there.
bool is_entry(const event& e) {
  return !std::holds_alternative<resumed>(e.what) && !std::holds_alternative<clock_changed>(e.what);
}

// How long the entry itself lies before the planned end, where there is one.
duration until_planned_end(const state& s, instant entry) {
  if (!s.planned || s.ended) return duration{0};
  return std::max(duration{0}, s.planned->what.ends - entry);
}

} // namespace

std::optional<kept_until> kept_until_of(const state& s, const std::vector<event>& events,
                                        const clock_reading& now) {
  if (!s.profile || !s.profile->kiosk || s.rehearsal()) return std::nullopt;
  const auto last = std::find_if(events.rbegin(), events.rend(), is_entry);
  if (last == events.rend()) return std::nullopt;
  time_line since(last->at);
  for (auto later = last.base(); later != events.end(); ++later)
    since.go_on(later->at);
  const elapsed passed = since.at(now);
  const duration wanted = until_planned_end(s, last->at.wall) + s.profile->kiosk->unhanded_after;
  const duration sure = passed.synchronised ? passed.length : passed.at_least;
  return kept_until{now.wall + std::max(duration{0}, wanted - sure), sure >= wanted};
}

} // namespace qb::inline sessions
