// The score from 0 to 10, as eleven buttons in two rows, and a way to leave it out.
// Nothing is chosen beforehand, and leaving it out is not a 0 (WCAG 2.5.7: no slider).
#pragma once

#include "app/patient/ui/toolkit.hpp"

#include <optional>

namespace qb::inline ui {

// One symptom as it is asked.
struct score_view {
  std::string name;  // "Bloating"
  std::string least; // what 0 means
  std::string most;  // what 10 means
  std::string skip;  // words of leaving it out; empty for no such way
  std::optional<int> chosen;
  bool skipped{false};
};

// What was pressed: a score, or leaving it out.
struct score_press {
  bool skip{false};
  int value{0}; // meaningful unless skip
};

// Keys: `key`-0 ... `key`-10, `key`-skip.
[[nodiscard]] std::optional<score_press> score(toolkit& k, const std::string& key,
                                               const score_view& view);

} // namespace qb::inline ui
