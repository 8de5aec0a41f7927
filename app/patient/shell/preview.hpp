// What the chosen day and time come to, while a plan is being made.
#pragma once

#include "app/patient/screens/view.hpp"

namespace qb::inline shells {

// All that bears on the start of that test: what was told of medicines and slips, the drafted hours
// at home, the kit's last day. While a plan stands that has not started, its preparation counts as
// kept from where it began, but for what was told as not kept.
[[nodiscard]] circumstances circumstances_of(const state& s, const home_draft& home, instant now);

// Fills in what is missing of the draft (the first early morning that works) and answers what its
// start comes to. A start is possible only where `decide` would take its plan.
[[nodiscard]] plan_preview preview_plan(plan_draft& draft, const state& s,
                                        const std::vector<offered_test>& tests, instant now,
                                        const zone& z);

} // namespace qb::inline shells
