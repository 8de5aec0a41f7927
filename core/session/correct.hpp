// Folding a correction in: what it names is put right, what stood before is kept beside it.
// Apart from the reducer, because it reaches into any earlier fact.
#pragma once

#include "core/session/state.hpp"

namespace qb::inline sessions {

// The sample whose counting closing, or whose latest scores, that event told; nothing if none.
[[nodiscard]] std::optional<sample_number> sample_closed_by(const state& s, std::int64_t seq);
[[nodiscard]] std::optional<sample_number> sample_scored_by(const state& s, std::int64_t seq);

// The scores that belong to no tube which that event told; nothing if none.
[[nodiscard]] std::optional<score_time> scores_after_told_by(const state& s, std::int64_t seq);

// Whether there is something of that kind to correct in the event named.
[[nodiscard]] bool can_correct(const state& s, const corrected& x);

// Puts it right. Does nothing where there is nothing of that kind. Never touches the grid.
void correct(state& s, const event& e, const corrected& x);

} // namespace qb::inline sessions
