// Each flag by itself, in the order of the header.
#include "core/curve/flags.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline curves {

namespace {

using reading = std::optional<exact> curve_sample::*;

void high_baseline(const curve_sample& base, const flag_rules& rules, std::vector<flag>& out) {
  if (!base.h2 || *base.h2 <= rules.high_baseline_h2) return;
  out.push_back({"high-baseline", base.minute, base.h2,
                 fmt::format("the baseline's H2 is {} ppm, over {}", base.h2->text(),
                             rules.high_baseline_h2.text())});
}

void early_spike(const curve& c, const flag_rules& rules, exact slack, std::vector<flag>& out) {
  const exact base = *c.front().h2;
  const exact until = rules.spike_until + slack;
  const curve_sample* before = nullptr; // the last one, where it is early and has risen
  for (auto s = c.begin() + 1; s != c.end(); ++s) {
    if (!s->h2) continue;
    const bool risen = *s->h2 - base >= rules.spike_rise;
    if (before != nullptr && !risen) {
      out.push_back(
          {"single-early-spike", before->minute, *before->h2 - base,
           fmt::format("H2 rose by {} ppm at minute {} and had fallen back at minute {}",
                       (*before->h2 - base).text(), before->minute.text(), s->minute.text())});
      return;
    }
    if (before != nullptr || s->minute > until) return;
    before = risen ? &*s : nullptr;
  }
}

// Whether there are two readings or more of the gas, and none is over `most`.
bool all_within(const curve& c, reading gas, exact most) {
  int count = 0;
  for (const curve_sample& s : c) {
    if (!(s.*gas)) continue;
    if (*(s.*gas) > most) return false;
    ++count;
  }
  return count >= 2;
}

void flat(const curve& c, const flag_rules& rules, std::vector<flag>& out) {
  if (!all_within(c, &curve_sample::h2, rules.flat_h2) ||
      !all_within(c, &curve_sample::ch4, rules.flat_ch4))
    return;
  out.push_back({"flat", std::nullopt, std::nullopt,
                 fmt::format("H2 is at most {} and CH4 at most {} ppm throughout; this is no clean "
                             "negative",
                             rules.flat_h2.text(), rules.flat_ch4.text())});
}

// The sample with the lowest reading, the first of them; nullptr where there is no reading.
const curve_sample* lowest(curve::const_iterator from, curve::const_iterator to, reading gas) {
  const curve_sample* out = nullptr;
  for (; from != to; ++from) {
    const curve_sample& s = *from;
    if (s.*gas && (out == nullptr || *(s.*gas) < *(out->*gas))) out = &s;
  }
  return out;
}

void falling_methane(const curve& c, const flag_rules& rules, std::vector<flag>& out) {
  const exact base = *c.front().ch4;
  const curve_sample* low = lowest(c.begin() + 1, c.end(), &curve_sample::ch4);
  if (low == nullptr || base - *low->ch4 < rules.methane_fall) return;
  out.push_back({"falling-methane", low->minute, base - *low->ch4,
                 fmt::format("CH4 is {} ppm below the baseline at minute {}",
                             (base - *low->ch4).text(), low->minute.text())});
}

void low_co2(const curve& c, const flag_rules& rules, std::vector<flag>& out) {
  const curve_sample* low = lowest(c.begin(), c.end(), &curve_sample::co2);
  if (low == nullptr || *low->co2 >= rules.low_co2) return;
  std::string all;
  for (const curve_sample& s : c) {
    if (!is_low_in_co2(s, rules)) continue;
    const std::string tube = s.number ? fmt::format("tube {}, ", *s.number) : std::string();
    all += fmt::format("{}{} % ({}minute {})", all.empty() ? "" : ", ", s.co2->text(), tube,
                       s.minute.text());
  }
  out.push_back(
      {"low-co2", low->minute, low->co2,
       fmt::format("CO2 is under {} %: {}; perhaps not alveolar air", rules.low_co2.text(), all)});
}

void gaps(const curve& c, const std::vector<std::chrono::minutes>& offsets,
          std::vector<flag>& out) {
  std::vector<exact> taken;
  for (const curve_sample& s : c)
    taken.push_back(s.minute);
  for (const std::chrono::minutes due : gaps_of(taken, offsets))
    out.push_back({"gap", exact(due.count()), std::nullopt,
                   fmt::format("no sample near minute {}, where one was due", due.count())});
}

} // namespace

bool is_low_in_co2(const curve_sample& s, const flag_rules& rules) {
  return s.co2 && *s.co2 < rules.low_co2;
}

std::vector<flag> flags_of(const curve& c, const flag_rules& rules,
                           const std::vector<std::chrono::minutes>& offsets, exact slack) {
  std::vector<flag> out;
  const curve_sample* base = baseline_of(c);
  if (base != nullptr) high_baseline(*base, rules, out);
  if (base != nullptr && base->h2) early_spike(c, rules, slack, out);
  flat(c, rules, out);
  if (base != nullptr && base->ch4) falling_methane(c, rules, out);
  low_co2(c, rules, out);
  if (base == nullptr)
    out.push_back(
        {"no-baseline", std::nullopt, std::nullopt, "there is no sample at minute 0 or before"});
  gaps(c, offsets, out);
  return out;
}

std::vector<std::chrono::minutes> gaps_of(const std::vector<exact>& taken,
                                          const std::vector<std::chrono::minutes>& offsets) {
  std::vector<std::chrono::minutes> out;
  for (std::size_t i = 1; i < offsets.size(); ++i) {
    const exact due(offsets[i].count());
    const exact from = due - exact((offsets[i] - offsets[i - 1]).count()).half();
    const auto first = std::upper_bound(taken.begin(), taken.end(), from);
    const bool last = i + 1 == offsets.size();
    const bool near = first != taken.end() &&
                      (last || *first <= due + exact((offsets[i + 1] - offsets[i]).count()).half());
    if (!near) out.push_back(offsets[i]);
  }
  return out;
}

} // namespace qb::inline curves
