// A zone is a row of stretches with one offset each; in a stretch clocks and instants run alike.
#include "core/plan/wall_hours.hpp"

namespace qb::inline plans {

namespace {

using std::chrono::seconds;

// The end of the stretch of one offset that holds `t`, or `until` where that comes first.
instant offset_holds_until(const zone& z, instant t, instant until) {
  constexpr std::chrono::hours look_ahead{6}; // changes of one zone lie further apart
  const seconds offset = z.offset_at(t);
  instant same = t;
  instant other = t;
  while (z.offset_at(other) == offset) {
    same = other;
    if (same >= until) return until;
    other = same + look_ahead;
  }
  // Changes fall on whole seconds.
  while (other - same > seconds{1}) {
    const instant middle = std::chrono::floor<seconds>(same + (other - same) / 2);
    if (middle <= same) break;
    (z.offset_at(middle) == offset ? same : other) = middle;
  }
  return std::min(std::chrono::time_point_cast<duration>(std::chrono::floor<seconds>(other)),
                  until);
}

wall_time shown_with(instant t, seconds offset) {
  return wall_time{t.time_since_epoch() + offset};
}

} // namespace

intervals<instant> when_shown(const intervals<wall_time>& shown, const zone& z, instant from,
                              instant until) {
  std::vector<stretch<instant>> all;
  for (instant t = from; t < until;) {
    const seconds offset = z.offset_at(t);
    const instant end = offset_holds_until(z, t, until);
    const intervals<wall_time> here({{shown_with(t, offset), shown_with(end, offset)}});
    const intervals<wall_time> both = shown & here;
    for (const auto& one : both.all())
      all.push_back({instant{one.from.time_since_epoch() - offset},
                     instant{one.until.time_since_epoch() - offset}});
    t = end;
  }
  return intervals<instant>(std::move(all));
}

instant day_begins(civil_date date, const zone& z) {
  const civil_meaning meaning = z.meaning_of(at(date, 0, 0));
  if (const auto* one = std::get_if<unique_time>(&meaning)) return one->at;
  if (const auto* two = std::get_if<twofold_time>(&meaning)) return two->first;
  return std::get<missing_time>(meaning).jump;
}

instant day_before_is_over(civil_date date, const zone& z) {
  const civil_meaning meaning = z.meaning_of(at(date, 0, 0));
  const auto* two = std::get_if<twofold_time>(&meaning);
  if (two == nullptr) return day_begins(date, z);
  const bool went_back = z.civil_at(two->second - seconds{1}) < at(date, 0, 0);
  return went_back ? two->second : two->first;
}

} // namespace qb::inline plans
