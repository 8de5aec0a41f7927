// Strict reading of emergency number, country and opening hours.
#include "core/protocol/reached.hpp"

#include "core/protocol/country.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline protocols {

namespace {

using json::fields;
using std::chrono::minutes;

constexpr minutes one_day = std::chrono::days{1};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// Digits with single spaces between them, as many as a telephone number has, and a "+" before the
// code of a country: what a telephone takes.
bool can_be_dialled(const std::string& text) {
  constexpr std::ptrdiff_t least_digits = 2;
  constexpr std::ptrdiff_t most_digits = 15; // number: ITU-T E.164
  const std::string number = !text.empty() && text.front() == '+' ? text.substr(1) : text;
  const auto digits = std::count_if(number.begin(), number.end(), is_digit);
  if (digits < least_digits || digits > most_digits) return false;
  for (std::size_t i = 0; i < number.size(); ++i) {
    const bool between = i > 0 && i + 1 < number.size() && is_digit(number[i - 1]);
    if (!is_digit(number[i]) && !(number[i] == ' ' && between)) return false;
  }
  return true;
}

// "08:30" as minutes of the day; the midnight that ends a day is "24:00".
minutes time_of_day(fields& f, const char* key) {
  const std::string text = f.text(key);
  const auto two_digits = [&](std::size_t at) {
    return (text[at] - '0') * 10 + text[at + 1] - '0';
  };
  const bool shaped = text.size() == 5 && text[2] == ':' && is_digit(text[0]) &&
                      is_digit(text[1]) && is_digit(text[3]) && is_digit(text[4]);
  constexpr int in_an_hour = 60;
  const bool good = shaped && two_digits(3) < in_an_hour &&
                    minutes{two_digits(0) * in_an_hour + two_digits(3)} <= one_day;
  if (!good) {
    f.refuse(key, json::shown(text), "a time from 00:00 to 24:00");
    return minutes{0};
  }
  return minutes{two_digits(0) * in_an_hour + two_digits(3)};
}

opening_hours read_hours(fields& f) {
  constexpr std::int64_t days_in_week = 7;
  opening_hours out;
  for (const std::int64_t day : f.integers("days", 1, days_in_week, 1, days_in_week)) {
    if (!out.days.insert(static_cast<int>(day)).second)
      f.refuse("days", "the same day twice", "each day once");
  }
  out.from = time_of_day(f, "from");
  out.until = time_of_day(f, "until");
  if (!f.failed() && out.until <= out.from)
    f.refuse("until", "a time that is not after from", "a time after from",
             refusal_kind::out_of_range);
  return out;
}

bool overlap(const opening_hours& a, const opening_hours& b) {
  const bool share_a_day =
      std::any_of(a.days.begin(), a.days.end(), [&](int day) { return b.days.count(day) != 0; });
  return share_a_day && a.from < b.until && b.from < a.until;
}

std::vector<opening_hours> read_all_hours(fields& f) {
  constexpr std::size_t days_of_week = 7;
  constexpr std::size_t most_spans = 2 * days_of_week; // a break at noon on each of them
  std::vector<opening_hours> out;
  const auto items = f.children("opening_hours", 1, most_spans);
  for (std::size_t i = 0; i < items.size(); ++i) {
    fields item(*items[i], f.place("opening_hours", i));
    opening_hours one = read_hours(item);
    for (const opening_hours& other : out) {
      if (!item.failed() && overlap(one, other))
        item.refuse("from", "hours that are open already", "hours that do not overlap");
    }
    f.absorb(item.finish());
    out.push_back(std::move(one));
  }
  return out;
}

} // namespace

void read_reached(fields& f, lab_profile& out, int version) {
  out.emergency = f.text("emergency");
  if (version == 1) {
    out.telephone_hours = f.text("telephone_hours");
    return;
  }
  constexpr std::size_t long_text = 240; // number: what the smallest window shows
  out.for_trying = f.boolean("for_trying");
  if (!f.failed() && !can_be_dialled(out.emergency))
    f.refuse("emergency", json::shown(out.emergency),
             "a number to dial: 2 to 15 digits, spaces between, \"+\" before");
  out.emergency_country = f.text("emergency_country");
  if (!f.failed() && !is_country(out.emergency_country))
    f.refuse("emergency_country", json::shown(out.emergency_country),
             "two letters of ISO 3166-1, as GB or FR");
  out.opening_hours = read_all_hours(f);
  if (!f.failed()) out.telephone_hours = hours_in_words(out.opening_hours);
  out.outside_hours = f.text("outside_hours", long_text);
}

} // namespace qb::inline protocols
