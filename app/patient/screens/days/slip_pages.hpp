// The pages of telling a slip.
// Split so that what it was and what it means have files of their own.
#pragma once

#include "app/patient/screens/plan_words.hpp"

namespace qb::inline screens {

// Drops what is drafted of a slip.
void forget_slip(ui_state& u);

// What it was: the protocol's subjects that can have happened by now, a medicine, something else.
[[nodiscard]] maybe_wish draw_slip_what(toolkit& k, const view& v, ui_state& u);
// What was chosen, in words.
[[nodiscard]] std::string slip_words(const view& v, const std::string& rule,
                                     const std::string& subject);

// Thanks, what it means under this protocol, and the way to another start.
[[nodiscard]] maybe_wish draw_slip_thanks(toolkit& k, const view& v, ui_state& u,
                                          const reported_slip& told);

} // namespace qb::inline screens
