// Civil times: what a wall clock or a calendar shows, with no zone and so no place on the time
// line. Appointments are civil ("07:30", "four weeks before"); only a zone makes an instant of
// them.
#pragma once

#include "core/base/result.hpp"
#include "core/time/instant.hpp"

#include <chrono>
#include <cstdint>
#include <string>
#include <string_view>

namespace qb::inline times {

// A calendar date. Arithmetic in days goes through `plus_days`.
using civil_date = std::chrono::year_month_day;

// A date and a time of day to the minute, as on a wall clock. Its minutes have 64 bits everywhere:
// the library's own have 32 on some machines, and end in the year 6053.
using civil_minutes = std::chrono::duration<std::int64_t, std::chrono::minutes::period>;
using civil_time = std::chrono::local_time<civil_minutes>;

// The years this program reads and writes: RFC 3339 has four digits, and a plan reaches some weeks
// to either side.
inline constexpr int first_year = 1;
inline constexpr int last_year = 9998;

// That many calendar days later, or earlier if negative.
[[nodiscard]] civil_date plus_days(civil_date date, std::chrono::days n);
// The calendar day of a civil time.
[[nodiscard]] civil_date date_of(civil_time t);
// The time of day on that date; hours 0 to 23, minutes 0 to 59.
[[nodiscard]] civil_time at(civil_date date, int hour, int minute);
// Its day of the week.
[[nodiscard]] std::chrono::weekday weekday_of(civil_date date);

// "2027-03-28" and "2027-03-28 09:00" (a T for the space is accepted); anything else, a date that
// does not exist, or a year outside first_year..last_year is refused.
[[nodiscard]] result<civil_date> parse_date(std::string_view text);
[[nodiscard]] result<civil_time> parse_civil(std::string_view text);

// "2027-03-28", "09:00", "2027-03-28 09:00".
[[nodiscard]] std::string date_text(civil_date date);
[[nodiscard]] std::string clock_text(civil_time t);
[[nodiscard]] std::string civil_text(civil_time t);

} // namespace qb::inline times
