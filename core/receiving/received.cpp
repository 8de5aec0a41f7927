// Times of day as people write them, and which of several entries counts.
#include "core/receiving/received.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

constexpr int minutes_in_hour = 60;
constexpr int hours_in_day = 24;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

int number_of(std::string_view digits) {
  int n = 0;
  for (const char c : digits)
    n = n * 10 + (c - '0');
  return n;
}

} // namespace

bool is_storage(std::string_view text) {
  return text == "room" || text == "cool" || text == "warm" || text == "frozen";
}

std::string day_minute_text(day_minute m) {
  const auto n = static_cast<int>(m.count());
  return fmt::format("{:02}:{:02}", n / minutes_in_hour, n % minutes_in_hour);
}

std::optional<day_minute> read_day_minute(std::string_view text) {
  const std::size_t mark = text.find_first_of(":.");
  const bool bare = mark == std::string_view::npos && text.size() == 4;
  if (mark == std::string_view::npos && !bare) return std::nullopt;
  const std::string_view hours = text.substr(0, bare ? 2 : mark);
  const std::string_view minutes = text.substr(bare ? 2 : mark + 1);
  if (!all_digits(hours) || hours.size() > 2 || !all_digits(minutes) || minutes.size() != 2)
    return std::nullopt;
  const int h = number_of(hours);
  const int m = number_of(minutes);
  if (h >= hours_in_day || m >= minutes_in_hour) return std::nullopt;
  return day_minute{h * minutes_in_hour + m};
}

const char* stated_text(stated t) {
  switch (t) {
  case stated::not_stated: return "not-told";
  case stated::yes: return "yes";
  case stated::no: return "no";
  }
  QB_BELIEVE(false);
  return "";
}

std::optional<stated> read_stated(std::string_view text) {
  for (const stated t : {stated::not_stated, stated::yes, stated::no})
    if (text == stated_text(t)) return t;
  return std::nullopt;
}

const char* conclusion_kind_text(conclusion_kind k) {
  switch (k) {
  case conclusion_kind::final_one: return "final";
  case conclusion_kind::amended: return "amended";
  case conclusion_kind::corrected: return "corrected";
  case conclusion_kind::cannot_be_reported: return "cannot-be-reported";
  }
  QB_BELIEVE(false);
  return "";
}

std::optional<conclusion_kind> read_conclusion_kind(std::string_view text) {
  for (const conclusion_kind k : {conclusion_kind::final_one, conclusion_kind::amended,
                                  conclusion_kind::corrected, conclusion_kind::cannot_be_reported})
    if (text == conclusion_kind_text(k)) return k;
  return std::nullopt;
}

std::vector<counted_reading> counted_readings(const received_kit& kit) {
  std::vector<counted_reading> out;
  for (const gas_reading& r : kit.readings) {
    const auto there = std::find_if(out.begin(), out.end(), [&](const counted_reading& c) {
      return c.reading.sample == r.sample;
    });
    if (there == out.end()) {
      out.push_back({r, false, false});
    } else {
      there->several = true;
    }
  }
  for (const reading_choice& choice : kit.choices) {
    for (counted_reading& c : out) {
      if (c.reading.sample != choice.sample) continue;
      for (const gas_reading& r : kit.readings) {
        if (r.sample == choice.sample && r.mark.entry == choice.entry) c = {r, c.several, true};
      }
    }
  }
  std::sort(out.begin(), out.end(), [](const counted_reading& a, const counted_reading& b) {
    return a.reading.sample < b.reading.sample;
  });
  return out;
}

std::vector<override_of> standing_overrides(const received_kit& kit) {
  std::vector<override_of> out;
  for (const override_of& o : kit.overrides) {
    out.erase(std::remove_if(out.begin(), out.end(),
                             [&](const override_of& before) {
                               return before.rule == o.rule && before.sample == o.sample;
                             }),
              out.end());
    if (!o.withdrawn) out.push_back(o);
  }
  return out;
}

} // namespace qb::inline receiving
