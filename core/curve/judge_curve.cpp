// Putting a curve's answers together.
#include "core/curve/judge_curve.hpp"

#include <algorithm>

namespace qb::inline curves {

namespace {

// The curve without what a flag calls low in CO2, where some such sample decides; else nothing.
std::optional<curve> without_low_co2(const curve& c, const flag_rules& flags) {
  const auto low = [&](const curve_sample& s) { return s.decides && is_low_in_co2(s, flags); };
  if (std::none_of(c.begin(), c.end(), low)) return std::nullopt;
  curve out = c;
  for (curve_sample& s : out)
    if (low(s)) s.decides = false;
  return out;
}

std::optional<exact> low_co2_at(const curve& c, const std::optional<measured_at>& at,
                                const flag_rules& flags) {
  if (!at) return std::nullopt;
  for (const curve_sample& s : c)
    if (s.minute == at->minute && is_low_in_co2(s, flags)) return s.co2;
  return std::nullopt;
}

exact distance(exact a, exact b) {
  return a < b ? b - a : a - b;
}

judging_terms terms_of(const lab_profile& profile, const protocol& test) {
  const sample_bounds& bounds = test.bounds ? *test.bounds : profile.bounds;
  judging_terms out;
  out.slack = exact(profile.window_slack.count());
  out.early = exact::minutes_of(bounds.early);
  out.on_time = exact::minutes_of(bounds.on_time);
  if (profile.judging.co2) out.co2_least = exact(profile.judging.co2->least_tenths).tenth();
  out.plausible = profile.judging.plausible;
  return out;
}

// Of a curve without a drink nothing is determined, and nothing would turn that.
judged_criterion without_substrate(const ready_criterion& r, exact slack) {
  judged_criterion out;
  out.by = r.by;
  out.says.why_not = undecided::no_substrate;
  out.reason = reason_of(out.says, *r.by, r.window, slack);
  out.how_firm.strict = out.says;
  return out;
}

} // namespace

test_judging ready_for(std::shared_ptr<const judging_rules> rules, const protocol& test,
                       const lab_profile& profile) {
  test_judging out{test.id, test.sugar.name, test.offsets, terms_of(profile, test), {},
                   {},      std::move(rules)};
  const std::vector<criterion>& all = out.rules->criteria;
  for (const criterion& c : all) {
    if (!judges(c, test)) continue;
    ready_criterion ready{&c, window_on(c, out.offsets), {}};
    for (const criterion& other : all) {
      const bool named = std::find(c.beside.begin(), c.beside.end(), other.id) != c.beside.end();
      if (named && is_for_sugar(other, test.sugar) && grid_reaches(other, test.offsets))
        ready.others.emplace_back(&other, window_on(other, out.offsets));
    }
    out.criteria.push_back(std::move(ready));
  }
  out.unjudged = unjudged_gases(all, test);
  return out;
}

curve as_of_grid(curve c, const test_judging& test) {
  for (curve_sample& s : c) {
    exact nearest(test.offsets.front().count());
    for (const std::chrono::minutes offset : test.offsets) {
      const exact due(offset.count());
      if (distance(s.minute, due) < distance(s.minute, nearest)) nearest = due;
    }
    s.due = nearest;
    if (s.co2 && test.terms.co2_least && *s.co2 < *test.terms.co2_least) s.decides = false;
  }
  return c;
}

judgement judge_curve(const curve& c, const test_judging& test, const curve_facts& facts) {
  judgement out;
  const judging_terms& lab = test.terms;
  out.slack = lab.slack;
  const flag_rules& flags = test.rules->flags;
  const std::optional<curve> alveolar = without_low_co2(c, flags);
  const curve_terms terms{&lab, facts.precision, facts.drink_start, alveolar ? &*alveolar : nullptr,
                          &facts.otherwise};
  for (const curve_sample& s : c) {
    if (s.co2) out.corrected = facts.otherwise.uncorrected.has_value();
    if (!s.decides) out.undeciding.push_back(s.minute);
  }
  for (const ready_criterion& r : test.criteria) {
    if (facts.no_substrate) {
      out.criteria.push_back(without_substrate(r, lab.slack));
      continue;
    }
    const weighed_curve weighed = weigh(c, *r.by, lab, facts.drink_start);
    const criterion_verdict v = judge(weighed, *r.by, r.window, lab);
    out.criteria.push_back({r.by, v, reason_of(v, *r.by, r.window, lab.slack),
                            firmness_of(v, c, weighed, r, test.offsets, terms),
                            low_co2_at(c, v.deciding(), flags)});
  }
  out.unjudged = test.unjudged;
  out.flags = flags_of(c, flags, test.offsets, lab.slack);
  out.h2 = area_of(c, &curve_sample::h2);
  out.ch4 = area_of(c, &curve_sample::ch4);
  return out;
}

} // namespace qb::inline curves
