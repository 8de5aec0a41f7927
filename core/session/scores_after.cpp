// Due times of the scores that belong to no tube.
#include "core/session/scores_after.hpp"

#include <algorithm>

namespace qb::inline sessions {

bool are_asked(const protocol& p, score_time t) {
  return t == score_time::after_last ? p.symptom_times.after_last.has_value()
                                     : p.symptom_times.later.has_value();
}

std::optional<duration> due_since_anchor(const state& s, score_time t) {
  if (!s.test || !s.grid || !s.drink_start || !are_asked(*s.test, t)) return std::nullopt;
  if (t == score_time::after_last)
    return s.test->offsets.back() + *s.test->symptom_times.after_last;
  return between(s.grid->anchor, s.drink_start->at).length + *s.test->symptom_times.later;
}

std::vector<std::optional<int>> scores_by_symptom(const protocol& p,
                                                  const std::vector<symptom_score>& given) {
  std::vector<std::optional<int>> out;
  for (const symptom& asked : p.symptoms) {
    const auto found = std::find_if(given.begin(), given.end(),
                                    [&](const symptom_score& x) { return x.id == asked.id; });
    out.push_back(found == given.end() ? std::nullopt : found->score);
  }
  return out;
}

std::optional<duration> given_since_anchor(const state& s, score_time t) {
  if (!s.grid || !s.of(t).given()) return std::nullopt;
  return between(s.grid->anchor, *s.of(t).at).length;
}

namespace {

// From now until the day ends on which that moment lies, by the clock as it stands.
duration to_end_of_day(const clock_reading& now, duration to_moment) {
  const auto day =
      std::chrono::floor<std::chrono::days>((now.wall + now.offset + to_moment).time_since_epoch());
  return day + std::chrono::days{1} - (now.wall + now.offset).time_since_epoch();
}

} // namespace

std::optional<scores_wanted> wanted_scores(const state& s, score_time t, const clock_reading& now) {
  const auto due = due_since_anchor(s, t);
  if (!due || s.ended || s.of(t).told) return std::nullopt;
  const duration since = s.grid->at(now).length;
  const duration to_due = *due - since;
  scores_wanted out{t, to_due, to_end_of_day(now, to_due)};
  const auto next = due_since_anchor(s, score_time::later);
  if (t == score_time::after_last && next) out.to_end = std::min(out.to_end, *next - since);
  if (out.to_end <= duration{0}) return std::nullopt;
  return out;
}

bool is_not_given(const state& s, score_time t, const clock_reading& now) {
  const auto due = due_since_anchor(s, t);
  return due && !s.ended && !s.of(t).given() && *due <= s.grid->at(now).length;
}

} // namespace qb::inline sessions
