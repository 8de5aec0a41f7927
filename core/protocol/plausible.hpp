// What no plausible protocol or profile leaves: a figure beyond it is a slip of the hand in the
// file, such as a digit too many, and the strict readers refuse it. Nothing else asks these
// figures.
#pragma once

#include <cstdint>

namespace qb::inline protocols {

// A leap year, in days: a washout, a diet, posting.
inline constexpr std::int64_t most_rule_days = 366;

// Half an hour, in minutes: past a criterion's window, still counted.
inline constexpr std::int64_t most_slack = 30;

// A year, in days: a box under way or waiting at the laboratory.
inline constexpr std::int64_t most_receiving_days = 365;

// Ten minutes, in seconds: how far a clock may plausibly be off.
inline constexpr std::int64_t most_clock_s = 600;

// A season, in hours: a finished test on a device that several people use.
inline constexpr std::int64_t most_kept_hours = 90 * 24;

} // namespace qb::inline protocols
