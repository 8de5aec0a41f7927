// What the chosen day and time come to, while a plan is being made.
#pragma once

#include "app/patient/screens/view.hpp"

namespace qb {

// Fills in missing drafts (the first test, the first early morning that works) and answers what the
// draft's start comes to. `drafts` are ui_state::text.
[[nodiscard]] plan_preview preview_plan(std::map<std::string, std::string>& drafts,
                                        const std::vector<offered_test>& tests, instant now,
                                        const zone& z);

} // namespace qb
