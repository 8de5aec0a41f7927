// All that is said of one curve: every criterion of its test, how firm, the flags, the areas.
// What report, command line and batches ask; the parts are in the headers it includes.
#pragma once

#include "core/curve/applies.hpp"
#include "core/curve/area.hpp"
#include "core/curve/criteria.hpp"
#include "core/curve/flags.hpp"
#include "core/curve/judge.hpp"
#include "core/curve/judge_firmness.hpp"
#include "core/protocol/profile.hpp"

#include <memory>
#include <string>
#include <vector>

namespace qb::inline curves {

// The laboratory's criteria and flags, as `check_criteria` accepts them.
struct judging_rules {
  std::vector<criterion> criteria;
  flag_rules flags;
};

// What one test is judged by, made once. Keeps what it points into alive.
struct test_judging {
  std::string test;                          // the protocol's id
  std::string sugar;                         // what was drunk, as the protocol names it
  std::vector<std::chrono::minutes> offsets; // its grid
  judging_terms terms;                       // the laboratory's choices for it
  std::vector<ready_criterion> criteria;     // those for this test, in the rules' order
  std::vector<unjudged_gas> unjudged;        // of which none of those asks
  std::shared_ptr<const judging_rules> rules;
};

// Picks the criteria for the test's sugar and dose and works out their windows on its grid. Beside
// one stand only others of the same sugar.
[[nodiscard]] test_judging ready_for(std::shared_ptr<const judging_rules> rules,
                                     const protocol& test, const lab_profile& profile);

// What is known of a curve beside its samples.
struct curve_facts {
  exact precision;          // how far a minute may be off, either way: of a code or a paper sheet
  exact drink_start;        // on the curve's minutes; a rise can be met only after it
  bool no_substrate{false}; // nothing was drunk, or it was lost: no criterion is answered
  other_curves otherwise{}; // what the curve would be by what else is known of its readings
};

// The curve with each sample's due minute as the nearest of the grid (of two equally near, the
// earlier), and those under the laboratory's least CO2 taken out of deciding: what a bare curve is
// judged as. A kit's case knows its tubes and says both itself.
[[nodiscard]] curve as_of_grid(curve c, const test_judging& test);

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
  std::optional<bool> corrected; // whether gases were corrected for CO2; none: no CO2 was measured
  std::vector<exact> undeciding; // minutes of the samples that decide nothing
  std::vector<judged_criterion> criteria;
  std::vector<unjudged_gas> unjudged;
  std::vector<flag> flags;
  curve_area h2;
  curve_area ch4;
};

// Judges the curve by the test's criteria and terms.
[[nodiscard]] judgement judge_curve(const curve& c, const test_judging& test,
                                    const curve_facts& facts = {});

} // namespace qb::inline curves
