// All that is said of one curve: every criterion of its test, how firm, the flags, the areas.
// What report, command line and batches ask; the parts are in the headers it includes.
#pragma once

#include "core/curve/area.hpp"
#include "core/curve/criteria.hpp"
#include "core/curve/flags.hpp"
#include "core/curve/judge.hpp"
#include "core/curve/judge_firmness.hpp"

#include <memory>
#include <string>
#include <vector>

namespace qb {

// The laboratory's criteria and flags, as `check_criteria` accepts them.
struct judging_rules {
  std::vector<criterion> criteria;
  flag_rules flags;
};

// What one test is judged by, made once. Keeps what it points into alive.
struct test_judging {
  std::string test;                          // the protocol's id
  std::vector<std::chrono::minutes> offsets; // its grid
  std::vector<ready_criterion> criteria;     // those for this test, in the rules' order
  std::shared_ptr<const judging_rules> rules;
};

// Picks the criteria for the test and works out their windows on its grid.
[[nodiscard]] test_judging ready_for(std::shared_ptr<const judging_rules> rules,
                                     const protocol& test);

// One criterion's answer with all that stands beside it.
struct judged_criterion {
  const criterion* by{nullptr};
  criterion_verdict says;
  std::string reason;
  firmness how_firm;
  std::optional<exact> low_co2{}; // per cent, of the deciding sample, where it is low
};

// The whole of one curve.
struct judgement {
  exact slack;
  std::vector<judged_criterion> criteria;
  std::vector<flag> flags;
  curve_area h2;
  curve_area ch4;
};

// Judges the curve; `slack` is how many minutes past a window's end a sample still counts,
// `precision` how far its minutes may be off, either way, where they were written by hand,
// `otherwise` what the curve would be by what else is known of its readings.
[[nodiscard]] judgement judge_curve(const curve& c, const test_judging& test, exact slack,
                                    exact precision = exact(), const other_curves& otherwise = {});

} // namespace qb
