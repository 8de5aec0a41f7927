// Putting a curve's answers together.
#include "core/curve/judge_curve.hpp"

#include <algorithm>

namespace qb {

namespace {

// The curve without the readings of what is perhaps no alveolar air; nothing where all is.
std::optional<curve> without_low_co2(const curve& c, const flag_rules& flags) {
  if (std::none_of(c.begin(), c.end(), [&](const auto& s) { return is_low_in_co2(s, flags); }))
    return std::nullopt;
  curve out = c;
  for (curve_sample& s : out) {
    if (!is_low_in_co2(s, flags)) continue;
    s.h2.reset();
    s.ch4.reset();
  }
  return out;
}

std::optional<exact> low_co2_at(const curve& c, const std::optional<measured_at>& at,
                                const flag_rules& flags) {
  if (!at) return std::nullopt;
  for (const curve_sample& s : c)
    if (s.minute == at->minute && is_low_in_co2(s, flags)) return s.co2;
  return std::nullopt;
}

} // namespace

test_judging ready_for(std::shared_ptr<const judging_rules> rules, const protocol& test) {
  test_judging out{test.id, test.offsets, {}, std::move(rules)};
  const std::vector<criterion>& all = out.rules->criteria;
  for (const criterion& c : all) {
    if (!is_for(c, test.id)) continue;
    ready_criterion ready{&c, window_on(c, out.offsets), {}};
    for (const criterion& other : all) {
      if (std::find(c.beside.begin(), c.beside.end(), other.id) != c.beside.end())
        ready.others.emplace_back(&other, window_on(other, out.offsets));
    }
    out.criteria.push_back(std::move(ready));
  }
  return out;
}

judgement judge_curve(const curve& c, const test_judging& test, exact slack, exact precision,
                      const other_curves& otherwise) {
  judgement out;
  out.slack = slack;
  const flag_rules& flags = test.rules->flags;
  const std::optional<curve> alveolar = without_low_co2(c, flags);
  const judging_terms terms{slack,
                            flags.noise,
                            precision,
                            otherwise.uncorrected ? &*otherwise.uncorrected : nullptr,
                            alveolar ? &*alveolar : nullptr,
                            &otherwise.second};
  for (const ready_criterion& r : test.criteria) {
    const weighed_curve weighed = weigh(c, *r.by);
    judging how;
    how.slack = slack;
    const criterion_verdict v = judge(weighed, *r.by, r.window, how);
    out.criteria.push_back({r.by, v, reason_of(v, *r.by, r.window, slack),
                            firmness_of(v, c, weighed, r, test.offsets, terms),
                            low_co2_at(c, v.deciding(), flags)});
  }
  out.flags = flags_of(c, flags, test.offsets, slack);
  out.h2 = area_of(c, &curve_sample::h2);
  out.ch4 = area_of(c, &curve_sample::ch4);
  return out;
}

} // namespace qb
