// Parsing and printing of civil dates and times, digit by digit: nothing lenient.
#include "core/time/civil.hpp"

#include <fmt/core.h>

namespace qb::inline times {

namespace {

// Reads exactly `width` digits at `from`, or -1.
int digits(std::string_view text, std::size_t from, std::size_t width) {
  if (text.size() < from + width) return -1;
  int n = 0;
  for (const char c : text.substr(from, width)) {
    if (c < '0' || c > '9') return -1;
    n = n * 10 + (c - '0');
  }
  return n;
}

refusal no_date(std::string_view text, const char* expected) {
  constexpr std::size_t enough = 40;
  return {refusal_kind::malformed, "", "", "\"" + std::string(text.substr(0, enough)) + "\"",
          expected};
}

} // namespace

civil_date plus_days(civil_date date, std::chrono::days n) {
  return civil_date{std::chrono::local_days{date} + n};
}

civil_date date_of(civil_time t) {
  return civil_date{std::chrono::floor<std::chrono::days>(t)};
}

civil_time at(civil_date date, int hour, int minute) {
  return civil_time{std::chrono::local_days{date}} + std::chrono::hours{hour} +
         std::chrono::minutes{minute};
}

std::chrono::weekday weekday_of(civil_date date) {
  return std::chrono::weekday{std::chrono::local_days{date}};
}

result<civil_date> parse_date(std::string_view text) {
  const int year = digits(text, 0, 4);
  const int month = digits(text, 5, 2);
  const int day = digits(text, 8, 2);
  const bool shaped = text.size() == 10 && text[4] == '-' && text[7] == '-';
  if (!shaped || year < 0 || month < 0 || day < 0)
    return tl::unexpected(no_date(text, "a date such as 2027-03-28"));
  const civil_date date{std::chrono::year{year}, std::chrono::month(static_cast<unsigned>(month)),
                        std::chrono::day(static_cast<unsigned>(day))};
  if (!date.ok()) return tl::unexpected(no_date(text, "a date that exists"));
  if (year < first_year || year > last_year)
    return tl::unexpected(no_date(text, "a year from 0001 to 9998"));
  return date;
}

result<civil_time> parse_civil(std::string_view text) {
  constexpr const char* expected = "a date and time such as \"2027-03-28 09:00\"";
  if (text.size() != 16 || (text[10] != ' ' && text[10] != 'T') || text[13] != ':')
    return tl::unexpected(no_date(text, expected));
  const int hour = digits(text, 11, 2);
  const int minute = digits(text, 14, 2);
  if (hour < 0 || minute < 0) return tl::unexpected(no_date(text, expected));
  if (hour > 23 || minute > 59)
    return tl::unexpected(no_date(text, "a time of day from 00:00 to 23:59"));
  return parse_date(text.substr(0, 10)).map([&](civil_date date) {
    return at(date, hour, minute);
  });
}

std::string date_text(civil_date date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string clock_text(civil_time t) {
  const std::chrono::minutes since_midnight = t - std::chrono::floor<std::chrono::days>(t);
  return fmt::format("{:02}:{:02}", since_midnight.count() / 60, since_midnight.count() % 60);
}

std::string civil_text(civil_time t) {
  return date_text(date_of(t)) + " " + clock_text(t);
}

} // namespace qb::inline times
