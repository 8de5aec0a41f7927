// Symptoms beside the gases, as an axis of their own: which rose, and when.
// No source read says how much of a rise matters, so none is judged.
#pragma once

#include "core/curve/curve.hpp"

#include <string>
#include <vector>

namespace qb::inline curves {

// The scores of one symptom by rising minute; one that was skipped is nothing.
struct symptom_track {
  std::string id;
  std::vector<std::pair<exact, std::optional<int>>> scores;
};

// How a symptom rose above its first score: the score at baseline, told at minute 0 or before.
struct symptom_rise {
  std::string id;
  int points{0};      // the largest rise, 1 or more
  exact first_minute; // when it was first above the baseline's score
  exact worst_minute; // when the largest rise was first told
};

// The symptoms that rose, in the order given. One without a score at baseline tells no rise.
[[nodiscard]] std::vector<symptom_rise> rises_of(const std::vector<symptom_track>& tracks);

} // namespace qb::inline curves
