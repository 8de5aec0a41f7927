// A damaged record that was read again before the drink: what was told before the loss, and what
// of it still counts. An answer that forbids holds. One that permits does not, since what came
// after it may be lost: it is asked again, whatever it was, and so is what nobody may know of any
// more. A loss never turns a yes into nothing. After the drink nothing is asked again.
#pragma once

#include "core/session/state.hpp"

#include <string>
#include <vector>

namespace qb::inline sessions {

// The list under which the record keeps that nothing of the preparation is left to be told again.
inline constexpr const char* told_again_list = "told-again";
// What the warning signs are called among the questions that nobody answered since.
inline constexpr const char* signs_again = "warning-signs";

// Whether that event came after the last loss; true where nothing was lost.
[[nodiscard]] bool is_told_since_loss(const state& s, std::int64_t seq);

// Whether that answer still counts: told since, or it forbids.
[[nodiscard]] bool still_counts(const state& s, const protocol& p, const caution& asked,
                                const noted_caution& told);

// Other sugars' questions that may have been answered before the loss, and were not since: those
// that this test does not ask itself. None where a kit's code says which sugar it is.
[[nodiscard]] std::vector<std::string> lost_answers(const state& s, const protocol& p);

// Whether they are to be told again: who the person is, warning signs, and what was not kept.
// Never after the drink or the end.
[[nodiscard]] bool is_person_lost(const state& s);
[[nodiscard]] bool are_signs_lost(const state& s);
[[nodiscard]] bool are_slips_lost(const state& s);

} // namespace qb::inline sessions
