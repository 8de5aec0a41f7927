// Each rule gives the earliest start it allows by itself; the latest of them binds.
#include "core/plan/earliest.hpp"

#include <algorithm>

namespace qb {

namespace {

instant first_instant_of(civil_date date, const zone& z) {
  const civil_meaning meaning = z.meaning_of(at(date, 0, 0));
  if (const auto* one = std::get_if<unique_time>(&meaning)) return one->at;
  if (const auto* two = std::get_if<twofold_time>(&meaning)) return two->first;
  return std::get<missing_time>(meaning).jump;
}

// (rule, earliest start it allows), in the protocol's order.
std::vector<earliest_start> allowances(const protocol& p, const std::vector<last_dose>& doses,
                                       instant now, const zone& z) {
  std::vector<earliest_start> out;
  for (const preparation_window& w : p.windows)
    out.push_back({now + w.from, w.why.rule});
  for (const washout& w : p.washouts) {
    for (const last_dose& d : doses) {
      if (d.rule == w.why.rule)
        out.push_back({first_instant_of(plus_days(d.on, w.days), z), w.why.rule});
    }
  }
  return out;
}

} // namespace

earliest_start find_earliest(const protocol& p, const std::vector<last_dose>& doses, instant now,
                             const zone& z) {
  const auto all = allowances(p, doses, now, z);
  const auto binding = std::max_element(
      all.begin(), all.end(),
      [](const earliest_start& a, const earliest_start& b) { return a.at < b.at; });
  QB_BELIEVE(binding != all.end());
  return *binding;
}

std::vector<broken_rule> rules_broken(const protocol& p, const std::vector<last_dose>& doses,
                                      instant start, instant now, const zone& z) {
  std::vector<broken_rule> out;
  for (const earliest_start& a : allowances(p, doses, now, z)) {
    if (a.at > start) out.push_back({a.binding_rule, a.at - start});
  }
  return out;
}

} // namespace qb
