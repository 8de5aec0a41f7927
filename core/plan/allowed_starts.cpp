// Civil hours of each day, put together on the civil line first and turned into instants once.
#include "core/plan/allowed_starts.hpp"

#include "core/plan/wall_hours.hpp"

namespace qb::inline plans {

namespace {

using std::chrono::days;

using wall_stretches = std::vector<stretch<wall_time>>;

// The civil days that clocks show between two instants, with one more on either side.
struct day_range {
  std::chrono::local_days first;
  std::chrono::local_days last;
};

day_range days_between(instant from, instant until, const zone& z) {
  return {std::chrono::local_days{date_of(z.civil_at(from))} - days{1},
          std::chrono::local_days{date_of(z.civil_at(until))} + days{1}};
}

void add_hours(wall_stretches& out, std::chrono::local_days day, const day_hours& h) {
  const auto to = h.to > h.from ? h.to : h.to + days{1};
  out.push_back({day + h.from, day + to});
}

intervals<wall_time> home_shown(const circumstances& c, const day_range& range) {
  wall_stretches at_home;
  if (c.home.empty()) at_home.push_back({range.first, range.last + days{1}});
  for (auto day = range.first; day <= range.last; day += days{1}) {
    const auto weekday = static_cast<int>(std::chrono::weekday{day}.iso_encoding());
    for (const home_hours& h : c.home) {
      if (h.weekdays.count(weekday) != 0) add_hours(at_home, day, h.hours);
    }
  }
  wall_stretches away;
  for (const civil_date& day : c.away)
    away.push_back({std::chrono::local_days{day}, std::chrono::local_days{day} + days{1}});
  return intervals<wall_time>(std::move(at_home)) - intervals<wall_time>(std::move(away));
}

// How long before the start the person has to be awake.
duration awake_before(const protocol& p) {
  const preparation_window* w = find_window(p, "awake");
  return w == nullptr ? duration{0} : duration{w->from};
}

} // namespace

duration length_of(const protocol& p) {
  return p.offsets.back() - p.offsets.front();
}

intervals<instant> starts_at_home(const protocol& p, const circumstances& c, const zone& z,
                                  instant from, instant until) {
  const intervals<instant> all({{from, until}});
  if (c.home.empty() && c.away.empty()) return all;
  const duration length = length_of(p);
  const instant end = until + length;
  return all & when_shown(home_shown(c, days_between(from, end, z)), z, from, end)
                   .with_room(duration{0}, length);
}

intervals<instant> starts_awake(const protocol& p, const circumstances& c, const zone& z,
                                instant from, instant until) {
  const intervals<instant> all({{from, until}});
  if (!c.awake) return all;
  const duration length = length_of(p);
  const duration before = awake_before(p);
  const instant begin = from - before;
  const instant end = until + length;
  const day_range range = days_between(begin, end, z);
  wall_stretches hours;
  for (auto day = range.first; day <= range.last; day += days{1})
    add_hours(hours, day, *c.awake);
  return all & when_shown(intervals<wall_time>(std::move(hours)), z, begin, end)
                   .with_room(before, length);
}

std::optional<instant> too_late_for_kit(const protocol& p, const circumstances& c, const zone& z) {
  if (!c.kit_expires) return std::nullopt;
  return day_begins(plus_days(*c.kit_expires, days{1}), z) - length_of(p);
}

} // namespace qb::inline plans
