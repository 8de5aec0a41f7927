// When scores are asked that belong to no tube: once more after the last tube, and later the same
// day. They are asked or offered and never waited for: a hand-over without them is as good as any.
#pragma once

#include "core/session/state.hpp"

#include <array>
#include <optional>
#include <vector>

namespace qb::inline sessions {

// Whether that protocol asks for them.
[[nodiscard]] bool are_asked(const protocol& p, score_time t);

// When they are due, elapsed since tube 1: after the last tube by the grid, later by the drink.
// Nothing where they are not asked or nothing was drunk.
[[nodiscard]] std::optional<duration> due_since_anchor(const state& s, score_time t);

// When they were given, elapsed since tube 1; nothing where they were not.
[[nodiscard]] std::optional<duration> given_since_anchor(const state& s, score_time t);

// Scores in the order of that protocol's symptoms; nothing where one is not among them or was
// skipped.
[[nodiscard]] std::vector<std::optional<int>>
scores_by_symptom(const protocol& p, const std::vector<symptom_score>& given);

// Both times, in their order.
inline constexpr std::array both_score_times{score_time::after_last, score_time::later};

// Scores that can still be given, elapsed from the reading that was asked with.
struct scores_wanted {
  score_time what{score_time::after_last};
  duration to_due{0}; // negative once they are due
  duration to_end{0}; // until they are asked no longer
};

// Nothing where they are not asked, were given or put off, or their time is over: with the day they
// were due on, and that of the first when the later ones are due.
[[nodiscard]] std::optional<scores_wanted> wanted_scores(const state& s, score_time t,
                                                         const clock_reading& now);

// Whether they were due by then and none was given. A test that ended early asks for none.
[[nodiscard]] bool is_not_given(const state& s, score_time t, const clock_reading& now);

} // namespace qb::inline sessions
