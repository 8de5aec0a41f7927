// Parsing and applying the rule line of a zone file.
#include "core/time/posix_rule.hpp"

#include <cctype>
#include <string>

namespace qb::inline times {

namespace {

using std::chrono::days;
using std::chrono::local_days;
using std::chrono::seconds;
using std::chrono::sys_days;
using std::chrono::sys_seconds;

// Takes pieces off the front of the line; `ok` turns false at the first piece that does not fit.
class line_reader {
public:
  explicit line_reader(std::string_view line) : rest_(line) {}

  bool ok{true};
  [[nodiscard]] bool at_end() const { return rest_.empty(); }
  [[nodiscard]] bool next_is(char c) const { return !rest_.empty() && rest_.front() == c; }
  bool take(char c) {
    if (!next_is(c)) return false;
    rest_.remove_prefix(1);
    return true;
  }
  void need(char c) { ok = take(c) && ok; }

  void skip_name() {
    if (take('<')) {
      while (!rest_.empty() && !next_is('>'))
        rest_.remove_prefix(1);
      need('>');
      return;
    }
    std::size_t letters = 0;
    while (letters < rest_.size() && std::isalpha(static_cast<unsigned char>(rest_[letters])) != 0)
      ++letters;
    ok = ok && letters >= 3;
    rest_.remove_prefix(letters);
  }

  int number() {
    std::size_t width = 0;
    int n = 0;
    while (width < rest_.size() && width < 4 && rest_[width] >= '0' && rest_[width] <= '9')
      n = n * 10 + (rest_[width++] - '0');
    ok = ok && width > 0;
    rest_.remove_prefix(width);
    return n;
  }

  // [+-]hh[:mm[:ss]]
  seconds clock() {
    const bool negative = take('-');
    if (!negative) take('+');
    seconds t = std::chrono::hours{number()};
    if (take(':')) t += std::chrono::minutes{number()};
    if (take(':')) t += seconds{number()};
    return negative ? -t : t;
  }

  yearly_change change() {
    yearly_change c;
    if (take('M')) {
      c.month = number();
      need('.');
      c.week = number();
      need('.');
      c.weekday = number();
      ok = ok && c.month >= 1 && c.month <= 12 && c.week >= 1 && c.week <= 5 && c.weekday <= 6;
    } else {
      const bool julian = take('J');
      using kind = yearly_change::kind;
      c.day_kind = julian ? kind::julian_without_leap_day : kind::zero_based_day;
      c.day = number();
      ok = ok && c.day <= 365 && (!julian || c.day >= 1);
    }
    c.time_of_day = take('/') ? clock() : std::chrono::hours{2};
    return c;
  }

private:
  std::string_view rest_;
};

local_days day_of(const yearly_change& c, std::chrono::year y) {
  using namespace std::chrono;
  const local_days new_year{y / January / 1};
  switch (c.day_kind) {
  case yearly_change::kind::julian_without_leap_day: {
    const bool after_february = c.day >= 60;
    return new_year + days{c.day - 1 + (y.is_leap() && after_february ? 1 : 0)};
  }
  case yearly_change::kind::zero_based_day: return new_year + days{c.day};
  case yearly_change::kind::month_week_day: break;
  }
  const std::chrono::month m(static_cast<unsigned>(c.month));
  const std::chrono::weekday w(static_cast<unsigned>(c.weekday));
  if (c.week == 5) return local_days{y / m / w[last]};
  return local_days{y / m / w[static_cast<unsigned>(c.week)]};
}

sys_seconds instant_of(const yearly_change& c, std::chrono::year y, seconds offset_before) {
  const auto local = day_of(c, y) + c.time_of_day;
  return sys_seconds{local.time_since_epoch()} - offset_before;
}

} // namespace

seconds posix_rule::offset_at(sys_seconds t) const {
  if (!daylight) return standard;
  const std::chrono::year_month_day local_date{std::chrono::floor<days>(t + standard)};
  const std::chrono::year y = local_date.year();
  const sys_seconds begins = instant_of(to_daylight, y, standard);
  const sys_seconds ends = instant_of(to_standard, y, *daylight);
  const bool in_daylight = begins < ends ? (begins <= t && t < ends) : !(ends <= t && t < begins);
  return in_daylight ? *daylight : standard;
}

std::optional<posix_rule> parse_posix_rule(std::string_view line) {
  line_reader in(line);
  posix_rule rule;
  in.skip_name();
  rule.standard = -in.clock();
  if (in.ok && !in.at_end()) {
    in.skip_name();
    const bool own_offset = !in.at_end() && !in.next_is(',');
    rule.daylight = own_offset ? -in.clock() : rule.standard + std::chrono::hours{1};
    in.need(',');
    rule.to_daylight = in.change();
    in.need(',');
    rule.to_standard = in.change();
  }
  if (!in.ok || !in.at_end()) return std::nullopt;
  return rule;
}

} // namespace qb::inline times
