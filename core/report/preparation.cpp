// What readiness says of each washout, with the day it rests on.
#include "core/report/preparation.hpp"

#include "core/session/readiness.hpp"

#include <algorithm>

namespace qb {

namespace {

std::optional<civil_date> later_of(std::optional<civil_date> a, civil_date b) {
  return a && std::chrono::local_days{*a} > std::chrono::local_days{b} ? *a : b;
}

report_washout washout_of(const state& s, const washout& w, const rule_check& c, const zone& z) {
  report_washout out;
  out.rule = w.why.rule;
  out.name = w.name;
  out.asked_days = w.days.count();
  out.events = c.events;
  if (c.kept) out.kept_days = std::chrono::floor<std::chrono::days>(*c.kept).count();
  if (const noted_washout* told = find_noted_washout(s, w.why.rule)) {
    out.answer = told->what.what.answer;
    out.last = told->what.what.on;
    if (told->what.what.agreed) out.agreed_by = told->what.who;
  }
  for (const noted_slip& slip : s.slips) {
    if (slip.what.rule == out.rule)
      out.last = later_of(out.last, date_of(z.civil_at(slip.what.when)));
  }
  return out;
}

} // namespace

void fill_preparation(const state& s, const clock_reading& now, report& out) {
  if (!s.test || !s.planned) return;
  for (const planned_window& w : s.planned->what.windows) {
    if (const noted_list* told = confirmation_of(s, w.rule))
      out.beginnings.push_back({w.rule, name_of_rule(*s.test, w.rule), told->at.wall, told->seq});
  }
  const instant start = s.grid ? s.grid->anchor.wall : s.planned->what.start;
  const std::vector<rule_check> checks = readiness(s, now, start, out.place);
  for (const washout& w : s.test->washouts) {
    const auto at = std::find_if(checks.begin(), checks.end(),
                                 [&](const rule_check& c) { return c.rule == w.why.rule; });
    if (at != checks.end()) out.washouts.push_back(washout_of(s, w, *at, out.place));
  }
}

} // namespace qb
