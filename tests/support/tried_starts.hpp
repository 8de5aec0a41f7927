// The earliest start by trying: every minute in turn, every rule read off what clocks show in each
// minute. Slow and plain on purpose, and without a line of core/plan: it is what the program's
// arithmetic is held against.
#pragma once

#include "core/plan/earliest.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

namespace qb::test {

// What clocks show, and what a person can do, in every minute from `first` on. All instants asked
// of it are whole minutes within its reach.
class tried_starts {
public:
  tried_starts(const protocol& p, const circumstances& c, instant now, const zone& z, instant first,
               instant last)
      : p_(p), c_(c), now_(now), first_(first), last_(last) {
    for (instant t = first; t <= last; t += std::chrono::minutes{1})
      shown_.push_back(z.civil_at(t));
  }

  // The first start from now on that keeps everything and whose test is over before the last
  // minute.
  [[nodiscard]] std::optional<instant> first_that_works() const {
    for (instant s = now_; s + length() + std::chrono::days{1} <= last_; s += one) {
      ++tried;
      if (works(s)) return s;
    }
    return std::nullopt;
  }

  [[nodiscard]] bool works(instant s) const {
    if (s < now_ || !at_home(s) || !awake(s) || !kit_is_good(s)) return false;
    return std::all_of(p_.windows.begin(), p_.windows.end(),
                       [&](const auto& w) { return keeps(w, s); }) &&
           std::all_of(p_.washouts.begin(), p_.washouts.end(),
                       [&](const auto& w) { return keeps(w, s); });
  }

  // Whether the start keeps that one rule.
  [[nodiscard]] bool keeps_rule(const std::string& rule, instant s) const {
    if (rule == "now") return s >= now_;
    if (rule == "home") return at_home(s);
    if (rule == "awake-hours") return awake(s);
    if (rule == "kit-expiry") return kit_is_good(s);
    for (const preparation_window& w : p_.windows) {
      if (w.why.rule == rule) return keeps(w, s);
    }
    for (const washout& w : p_.washouts) {
      if (w.why.rule == rule) return keeps(w, s);
    }
    return false;
  }

  // The window begins at the latest told moment or after it, or is ahead.
  [[nodiscard]] bool keeps(const preparation_window& w, instant s) const {
    bool told = false;
    for (const reported_moment& m : c_.moments) {
      if (m.rule != w.why.rule) continue;
      told = true;
      if (s - w.from < m.last) return false;
    }
    return told || s - w.from >= now_;
  }

  // From the start on no clock shows a day that is less than so many days after the last dose.
  [[nodiscard]] bool keeps(const washout& w, instant s) const {
    for (const answered_washout& d : c_.washouts) {
      if (d.rule != w.why.rule || d.agreed || d.answer == washout_answer::never) continue;
      if (d.answer == washout_answer::cannot_stop || d.answer == washout_answer::unknown || !d.on)
        return false;
      for (instant t = s; t <= s + std::chrono::days{1}; t += one) {
        if (day(t) - std::chrono::local_days{*d.on} < w.days) return false;
      }
    }
    return true;
  }

  [[nodiscard]] bool at_home(instant s) const {
    for (instant t = s; t <= s + length(); t += one) {
      for (const civil_date& away : c_.away) {
        if (day(t) == std::chrono::local_days{away}) return false;
      }
      if (!c_.home.empty() && !is_home(t)) return false;
    }
    return true;
  }

  [[nodiscard]] bool awake(instant s) const {
    if (!c_.awake) return true;
    std::chrono::minutes before{0};
    for (const preparation_window& w : p_.windows) {
      if (w.why.rule == "awake") before = w.from;
    }
    for (instant t = s - before; t <= s + length(); t += one) {
      const auto m = minute_of_day(t);
      const bool on_that_day =
          m >= c_.awake->from && (m < c_.awake->to || over_midnight(*c_.awake));
      const bool of_the_day_before = over_midnight(*c_.awake) && m < c_.awake->to;
      if (!on_that_day && !of_the_day_before) return false;
    }
    return true;
  }

  // No clock showed the day after the kit's last one before the test was over.
  [[nodiscard]] bool kit_is_good(instant s) const {
    if (!c_.kit_expires) return true;
    for (instant t = std::max(first_, s - std::chrono::days{1}); t <= s + length(); t += one) {
      if (day(t) > std::chrono::local_days{*c_.kit_expires}) return false;
    }
    return true;
  }

  mutable long tried = 0;

private:
  static constexpr std::chrono::minutes one{1};

  [[nodiscard]] duration length() const { return p_.offsets.back(); }
  [[nodiscard]] civil_time shown(instant t) const {
    return shown_.at(static_cast<std::size_t>((t - first_) / one));
  }
  [[nodiscard]] std::chrono::local_days day(instant t) const {
    return std::chrono::floor<std::chrono::days>(shown(t));
  }
  [[nodiscard]] std::chrono::minutes minute_of_day(instant t) const { return shown(t) - day(t); }
  [[nodiscard]] static bool over_midnight(const day_hours& h) { return h.to <= h.from; }

  [[nodiscard]] bool is_home(instant t) const {
    const auto m = minute_of_day(t);
    const auto weekday = [](std::chrono::local_days d) {
      return static_cast<int>(std::chrono::weekday{d}.iso_encoding());
    };
    const int today = weekday(day(t));
    const int yesterday = weekday(day(t) - std::chrono::days{1});
    for (const home_hours& h : c_.home) {
      const bool late = over_midnight(h.hours);
      if (h.weekdays.count(today) != 0 && m >= h.hours.from && (m < h.hours.to || late))
        return true;
      if (late && h.weekdays.count(yesterday) != 0 && m < h.hours.to) return true;
    }
    return false;
  }

  const protocol& p_;
  const circumstances& c_;
  instant now_;
  instant first_;
  instant last_;
  std::vector<civil_time> shown_;
};

} // namespace qb::test
