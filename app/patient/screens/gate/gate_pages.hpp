// The pages of the gate.
// Split so that the morning's questions and the check at the start have files of their own.
#pragma once

#include "app/patient/screens/plan_words.hpp"
#include "core/session/readiness.hpp"

namespace qb {

// The question that somebody must be asked about, answered and not yet cleared: of the morning or
// of those before the plan; or one that nobody answered. nullptr: none.
[[nodiscard]] const caution* open_question(const view& v);

// Whether the morning's questions are answered since the plan, not longer ago than answers hold.
[[nodiscard]] bool morning_answered(const view& v);
// The same, however long ago.
[[nodiscard]] bool reported_morning(const view& v);

// The morning's questions; whom to ask about an answer and what they said; that it is not today.
[[nodiscard]] maybe_wish draw_gate_morning(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_gate_ask(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_gate_not_today(toolkit& k, const view& v, ui_state& u);

// Before the planned start: how long to wait.
[[nodiscard]] maybe_wish draw_gate_time(toolkit& k, const view& v, ui_state& u);
// Every rule against this moment, who agreed, and the whole list.
[[nodiscard]] maybe_wish draw_gate_check(toolkit& k, const view& v, ui_state& u);

} // namespace qb
