// Each symptom against its own first score.
#include "core/curve/judge_symptoms.hpp"

namespace qb::inline curves {

std::vector<symptom_rise> rises_of(const std::vector<symptom_track>& tracks) {
  std::vector<symptom_rise> out;
  for (const symptom_track& t : tracks) {
    if (t.scores.empty() || t.scores.front().first > exact() || !t.scores.front().second) continue;
    const int base = *t.scores.front().second;
    symptom_rise rise{t.id, 0, {}, {}};
    for (const auto& [minute, score] : t.scores) {
      if (!score || *score <= base) continue;
      if (rise.points == 0) rise.first_minute = minute;
      if (*score - base <= rise.points) continue;
      rise.points = *score - base;
      rise.worst_minute = minute;
    }
    if (rise.points > 0) out.push_back(std::move(rise));
  }
  return out;
}

} // namespace qb::inline curves
