// Bounds of what a file may say, among which a rule is hidden.
// Bad on purpose: tests/rules/run must find it.
#pragma once

#include <cstdint>

namespace qb::inline protocols {

// A year, in days.
inline constexpr std::int64_t most_rule_days = 366;

// No bound: a rule of preparation.
inline constexpr std::int64_t fast_hours = 12;

inline constexpr std::int64_t most_slack = 30;

// Half an hour, but not as a whole number that a reader is given.
inline constexpr double most_tolerance_min = 30;

} // namespace qb::inline protocols
