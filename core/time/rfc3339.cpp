// RFC 3339 texts of instants, with a zone's offset for people and in UTC for files.
#include "core/time/zone.hpp"

#include <cstdlib>
#include <fmt/core.h>

namespace qb::inline times {

namespace {

std::string date_and_clock(std::chrono::milliseconds since_epoch) {
  const std::chrono::local_time<std::chrono::milliseconds> t{since_epoch};
  const auto day = std::chrono::floor<std::chrono::days>(t);
  const auto second = std::chrono::floor<std::chrono::seconds>(t - day).count();
  return fmt::format("{}T{:02}:{:02}:{:02}", date_text(civil_date{day}), second / 3600,
                     second / 60 % 60, second % 60);
}

refusal no_instant(std::string_view text) {
  constexpr std::size_t enough = 40;
  return {refusal_kind::malformed, "", "", "\"" + std::string(text.substr(0, enough)) + "\"",
          "an instant such as \"2027-03-28T08:00:00Z\""};
}

} // namespace

result<std::string> rfc3339(instant t, const zone& z) {
  const std::chrono::seconds offset = z.offset_at(t);
  const auto minutes = std::chrono::floor<std::chrono::minutes>(offset);
  if (minutes != offset)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "zone " + z.name(), rfc3339_utc(t),
                                  fmt::format("an offset of {} seconds", offset.count()),
                                  "an offset of whole minutes, which RFC 3339 can write"});
  const auto size = std::abs(minutes.count());
  return fmt::format("{}{}{:02}:{:02}", date_and_clock(t.time_since_epoch() + offset),
                     minutes.count() < 0 ? '-' : '+', size / 60, size % 60);
}

std::string rfc3339_utc(instant t) {
  const auto ms = (t - std::chrono::floor<std::chrono::seconds>(t)).count();
  const std::string whole = date_and_clock(t.time_since_epoch());
  return ms == 0 ? whole + "Z" : fmt::format("{}.{:03}Z", whole, ms);
}

result<instant> parse_rfc3339_utc(std::string_view text) {
  constexpr std::size_t whole_size = 20;   // 2027-03-28T08:00:00Z
  constexpr std::size_t precise_size = 24; // 2027-03-28T08:00:00.123Z
  const bool precise = text.size() == precise_size && text[19] == '.';
  if ((text.size() != whole_size && !precise) || text.back() != 'Z' || text[10] != 'T' ||
      text[16] != ':')
    return tl::unexpected(no_instant(text));
  const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
  if (!digit(17) || !digit(18) || text[17] > '5') return tl::unexpected(no_instant(text));
  if (precise && !(digit(20) && digit(21) && digit(22))) return tl::unexpected(no_instant(text));
  const auto minute = parse_civil(text.substr(0, 16));
  if (!minute) return tl::unexpected(no_instant(text));
  instant t{std::chrono::milliseconds{minute->time_since_epoch()}};
  t += std::chrono::seconds{(text[17] - '0') * 10 + (text[18] - '0')};
  if (precise)
    t += std::chrono::milliseconds{(text[20] - '0') * 100 + (text[21] - '0') * 10 +
                                   (text[22] - '0')};
  return t;
}

} // namespace qb::inline times
