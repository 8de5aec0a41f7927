// The pages of the gate.
// Split so that the actual moment against the plan has a file of its own.
#pragma once

#include "app/patient/screens/plan_words.hpp"

namespace qb {

// Values of ui_state::page at the gate; 0 is its first page.
namespace gate_page {
inline constexpr int sugar = 1;
inline constexpr int well = 2;
inline constexpr int things = 3;
inline constexpr int time = 4;   // everything is ticked, and it is before the planned start
inline constexpr int agreed = 5; // what was asked is too short: only if the laboratory agrees
inline constexpr int wrong_sugar = 6;
inline constexpr int not_well = 7;
} // namespace gate_page

// When "I am well today" was pressed, milliseconds since 1970 as text, in ui_state::text.
inline constexpr const char* ticked_at_key = "gate.ticked_at";

// The gate is passed: everything was ticked.
[[nodiscard]] maybe_wish pass_gate(ui_state& u);

// Before the planned start: how long to wait, and what a start now would cut short.
[[nodiscard]] maybe_wish draw_gate_time(kit& k, const view& v, ui_state& u);

} // namespace qb
