// The rule line at the end of a zone file: how daylight saving goes on after the last listed
// change. Source of its grammar: POSIX.1-2017, section 8.3 "TZ", with the extension of RFC
// 8536, 3.3.1.
#pragma once

#include "core/time/instant.hpp"

#include <chrono>
#include <optional>
#include <string_view>

namespace qb::inline times {

// One yearly change: the day, and the local time of day (which may be negative or over 24 h).
struct yearly_change {
  enum class kind { julian_without_leap_day, zero_based_day, month_week_day };
  kind day_kind{kind::month_week_day};
  int day{0};   // 1..365 or 0..365
  int month{0}; // 1..12
  int week{0};  // 1..5, 5 is the last
  int weekday{0};
  std::chrono::seconds time_of_day{0};
};

// A standard offset and, where there is daylight saving, a second one with its two yearly changes.
struct posix_rule {
  std::chrono::seconds standard{0};
  std::optional<std::chrono::seconds> daylight;
  yearly_change to_daylight;
  yearly_change to_standard;

  // Local time minus UTC at that instant, by this rule alone.
  [[nodiscard]] std::chrono::seconds offset_at(std::chrono::sys_seconds t) const;
};

// Reads a line such as "GMT0BST,M3.5.0/1,M10.5.0"; nothing where it does not follow the grammar.
[[nodiscard]] std::optional<posix_rule> parse_posix_rule(std::string_view line);

} // namespace qb::inline times
