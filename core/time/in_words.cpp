// The words, in the order of the header.
#include "core/time/in_words.hpp"

#include <array>
#include <cstdlib>
#include <fmt/core.h>

namespace qb::inline times {

std::string length_in_words(duration d) {
  const auto total = std::chrono::duration_cast<std::chrono::seconds>(d < duration{0} ? -d : d);
  const auto h = total.count() / 3600;
  const auto m = total.count() / 60 % 60;
  const auto s = total.count() % 60;
  if (h > 0) return m == 0 ? fmt::format("{} h", h) : fmt::format("{} h {} min", h, m);
  if (m == 0) return fmt::format("{} s", s);
  return s == 0 ? fmt::format("{} min", m) : fmt::format("{} min {} s", m, s);
}

std::string day_and_time(instant t, instant from, const zone& z) {
  static const std::array<const char*, 7> days{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                               "Thursday", "Friday", "Saturday"};
  static const std::array<const char*, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};
  const civil_time there = z.civil_at(t);
  const civil_date date = date_of(there);
  const char* day = days.at(weekday_of(date).c_encoding());
  const auto apart =
      std::chrono::local_days{date} - std::chrono::local_days{date_of(z.civil_at(from))};
  constexpr std::chrono::days within{6}; // beyond a week's turn a weekday alone misleads
  if (apart <= within && apart >= -within) return fmt::format("{} {}", day, clock_text(there));
  return fmt::format("{} {} {} {}", day, static_cast<unsigned>(date.day()),
                     months.at(static_cast<unsigned>(date.month()) - 1), clock_text(there));
}

} // namespace qb::inline times
