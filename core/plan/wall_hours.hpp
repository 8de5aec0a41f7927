// From what clocks and calendars show to instants: when a zone's clocks show given times, and when
// a day begins. Home and waking hours are told as a wall clock has them; a test takes physical
// time.
#pragma once

#include "core/plan/intervals.hpp"
#include "core/time/zone.hpp"

#include <chrono>

namespace qb::inline plans {

// Civil times, finer than a minute, so that intervals of them lose nothing of an instant.
using wall_time = std::chrono::local_time<duration>;

// The instants from `from` to `until` (not part of it) at which the zone's clocks show a time that
// is in `shown`. A time shown twice counts twice, one that is jumped over not at all; what clocks
// show without a break (23:59 and then 01:00, where a day begins at 01:00) is one stretch.
// Two changes of the offset within less than six hours of each other would be missed; the database
// of zones has none since 1970 (tests/outside/run_plan_changes looks).
[[nodiscard]] intervals<instant> when_shown(const intervals<wall_time>& shown, const zone& z,
                                            instant from, instant until);

// The first instant at which clocks show that day: midnight where there is one, the first of two,
// or the end of the jump over it (then the day may begin at 01:00, or be skipped whole).
[[nodiscard]] instant day_begins(civil_date date, const zone& z);

// The first instant from which clocks show that day or a later one and no earlier one any more.
// Another than `day_begins` only where clocks go back over midnight after it was shown.
[[nodiscard]] instant day_before_is_over(civil_date date, const zone& z);

} // namespace qb::inline plans
