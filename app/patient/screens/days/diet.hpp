// What the pages of the days before share: which lists are done, what can be confirmed now, what
// may be eaten and drunk.
// One place, so that the first page, the lists and the gate agree.
#pragma once

#include "app/patient/screens/plan_words.hpp"

namespace qb::inline screens {

// Whether the evening's things were laid out.
[[nodiscard]] bool evening_list_done(const view& v);
// From when the morning's list is offered: a little before the last windows begin.
[[nodiscard]] instant morning_begins(const view& v);
// Whether the morning's list was gone through on the morning of this start.
[[nodiscard]] bool morning_list_done(const view& v);

// The rule whose beginning can be confirmed by a press now, as it happens: around the beginning of
// a window up to the start, once; nothing where there is none. Its words are living.confirm.RULE.
[[nodiscard]] std::optional<std::string> confirmable_now(const view& v);

// What may be eaten and drunk, what of medicines and what else, now.
[[nodiscard]] std::vector<fact> rows_of_now(const view& v);

// Whether some window says what fits the test, now or later.
[[nodiscard]] bool has_foods(const view& v);

} // namespace qb::inline screens
