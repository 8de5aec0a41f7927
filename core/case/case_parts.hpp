// The steps from a case's tubes and findings to its judgement, shared by log and paper.
#pragma once

#include "core/case/case.hpp"

namespace qb::inline cases {

// Minutes since time zero, from elapsed times since tube 1 (or the grid's anchor).
struct case_clock {
  time_zero zero{time_zero::tube_1_closed};
  duration offset{0}; // of time zero, since the anchor
  bool drink_first{false};
};

// Which moment minutes count from, given what is known of the drink, as elapsed times since the
// anchor. The anchor is the drink's start where it came first.
[[nodiscard]] case_clock case_clock_of(time_zero asked, bool drink_first,
                                       std::optional<duration> drink_start,
                                       std::optional<duration> drink_end);

// Puts the readings beside the tubes; answers findings of readings without a time, tubes without a
// reading, and gases that could not be corrected.
[[nodiscard]] std::vector<finding> join_readings(const received_kit& received,
                                                 const lab_profile& profile,
                                                 std::vector<case_tube>& tubes);

// Names and weighs findings, and marks those that a standing override is about.
[[nodiscard]] std::vector<case_finding> weigh_findings(const std::vector<finding>& found,
                                                       const protocol& test,
                                                       const received_kit& received,
                                                       const case_rules& rules);

// Where that moment lies on the patient's clock.
[[nodiscard]] std::optional<instant> zero_instant(const test_case& c,
                                                  std::optional<instant> tube_1);

// The finding that no criterion can be answered, where there is a reason.
void add_lost_substrate(const std::optional<std::string>& why, std::vector<finding>& found);

// Fills curve, judgement, symptoms and axes of a case whose tubes and findings are there.
void judge_case(const case_rules& rules, test_case& c);

// What log and paper have in common, once tubes and minutes are known: joins, weighs and judges.
void finish_case(const received_kit& received, const case_rules& rules, std::vector<finding> found,
                 const std::vector<finding>& receiving_findings, test_case& c);

} // namespace qb::inline cases
