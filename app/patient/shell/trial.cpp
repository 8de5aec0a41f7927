// The facts of the trial, and its shortened test.
#include "app/patient/shell/trial.hpp"

#include "core/base/json.hpp"
#include "core/session/going_on.hpp"

#include <algorithm>

namespace qb::inline shells {

namespace {

// The rules are the whole test's; only the later due times are left out.
std::string cut_grid(const std::string& canonical_text, std::size_t tubes) {
  auto rules = json::parse(canonical_text);
  QB_BELIEVE(rules.has_value());
  for (json::member& m : *rules->members()) {
    if (m.first != "grid") continue;
    for (json::member& of_grid : *m.second.members()) {
      if (of_grid.first != "offsets_min") continue;
      json::array& due = *of_grid.second.items();
      due.resize(std::min(tubes, due.size()));
    }
  }
  return json::canonical(*rules);
}

reported_person invented() {
  return {"Wilma Tern", civil_date{std::chrono::year{1950} / 5 / 4}, "Dr Ivo Brandreth", "TRY-1",
          "An invented laboratory"};
}

} // namespace

offered_test shortened(const offered_test& whole, std::size_t tubes) {
  offered_test out;
  out.id = whole.id;
  out.canonical_text = cut_grid(whole.canonical_text, tubes);
  auto read = read_protocol(out.canonical_text);
  QB_BELIEVE(read.has_value());
  out.test = std::move(*read);
  return out;
}

bool is_trial(const state& s) {
  return s.rehearsal() && s.samples.size() == trial_tubes;
}

std::vector<payload> trial_facts(const offered_test& whole, const clock_reading& now,
                                 const zone& z) {
  const offered_test test = shortened(whole, trial_tubes);
  std::vector<payload> out{invented()};
  for (const caution& c : test.test.cautions)
    out.emplace_back(reported_caution{c.why.rule, caution_answer::no, {}, "", ""});
  for (const washout& w : test.test.washouts)
    out.emplace_back(reported_washout{{w.why.rule, washout_answer::never, {}, false}, ""});
  // In this very minute: all of the preparation lies before it, and none of it is short.
  const auto starts = std::chrono::floor<std::chrono::minutes>(now.wall);
  const sugar_form& form = test.test.sugar.forms.front();
  auto made = make_plan(test.test, starts, z);
  QB_BELIEVE(made.has_value());
  out.emplace_back(plan_made{test.canonical_text, form.form, std::move(*made)});
  for (const caution& c : test.test.morning)
    out.emplace_back(reported_caution{c.why.rule, caution_answer::no, {}, "", ""});
  out.emplace_back(reported_packet{test.test.sugar.name, form.amount, form.unit});
  out.emplace_back(reported_ready{gate_checks(), {}, ""});
  return out;
}

} // namespace qb::inline shells
