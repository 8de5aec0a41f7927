// Putting a curve's answers together.
#include "core/lab/judge_curve.hpp"

#include <algorithm>

namespace qb {

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

judgement judge_curve(const curve& c, const test_judging& test, exact slack, exact precision) {
  judgement out;
  out.slack = slack;
  const flag_rules& flags = test.rules->flags;
  const judging_terms terms{slack, flags.noise, precision};
  for (const ready_criterion& r : test.criteria) {
    const weighed_curve weighed = weigh(c, *r.by);
    judging how;
    how.slack = slack;
    const verdict v = judge(weighed, *r.by, r.window, how);
    out.criteria.push_back({r.by, v, reason_of(v, *r.by, r.window, slack),
                            firmness_of(v, c, weighed, r, test.offsets, terms)});
  }
  out.flags = flags_of(c, flags, test.offsets, slack);
  out.h2 = area_of(c, &curve_sample::h2);
  out.ch4 = area_of(c, &curve_sample::ch4);
  return out;
}

} // namespace qb
