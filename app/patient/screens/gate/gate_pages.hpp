// The pages of the gate, and those it shares with what stands against going on.
// Split so that the packet, the morning's questions and the check have files of their own.
#pragma once

#include "app/patient/screens/plan_words.hpp"
#include "core/session/going_on.hpp"

namespace qb::inline screens {

// The question that is to be asked in full: one that nobody answered, or one of the morning that
// was not answered with no before; with `each` the morning's list is gone through one by one. Where
// answers were lost, also one of another sugar's.
[[nodiscard]] std::optional<caution> question_due(const view& v, bool each);

// Whether the morning's list is answered for this start and still holds.
[[nodiscard]] bool morning_answered(const view& v);

// What the packet says, and, on its second page, what it says instead.
[[nodiscard]] maybe_wish draw_packet(toolkit& k, const view& v, ui_state& u);
// The morning's list; one question in full; that it is not today.
[[nodiscard]] maybe_wish draw_gate_morning(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_gate_ask(toolkit& k, const view& v, ui_state& u);
// Where slips may be lost: whether there is one to tell.
[[nodiscard]] maybe_wish draw_gate_told_again(toolkit& k, const view& v, ui_state& u);
[[nodiscard]] maybe_wish draw_gate_not_today(toolkit& k, const view& v, ui_state& u);

// Before the planned start: how long to wait.
[[nodiscard]] maybe_wish draw_gate_time(toolkit& k, const view& v, ui_state& u);
// Every rule against this moment, who agreed, and the whole list.
[[nodiscard]] maybe_wish draw_gate_check(toolkit& k, const view& v, ui_state& u);

} // namespace qb::inline screens
