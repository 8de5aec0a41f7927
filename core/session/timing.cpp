// How samples lie against the grid.
#include "core/session/now.hpp"

namespace qb::inline sessions {

const char* key_of(how_known how) {
  switch (how) {
  case how_known::observed: return "observed";
  case how_known::told: return "told";
  case how_known::estimated: return "estimated";
  }
  QB_BELIEVE(false);
  return "";
}

const char* words_of(how_known how) {
  switch (how) {
  case how_known::observed: return "pressed";
  case how_known::told: return "told";
  case how_known::estimated: return "from memory";
  }
  QB_BELIEVE(false);
  return "";
}

duration lateness(const state& s, sample_number n) {
  const sample_state& t = s.of(n);
  QB_BELIEVE(t.taken.has_value() && s.test.has_value());
  return t.taken->since_anchor - s.test->offset_of(n);
}

timing timing_of(const state& s, sample_number n) {
  QB_BELIEVE(s.profile.has_value());
  const duration late = lateness(s, n);
  // The anchor itself is never early or late; a tube 1 told or repeated later is judged like any.
  if (late < -bounds_of(s).early) return timing::early;
  return late <= bounds_of(s).on_time ? timing::on_time : timing::late;
}

bool is_missed(const state& s, sample_number n, const clock_reading& now) {
  if (s.of(n).taken) return false;
  if (s.ended) return true;
  if (!s.grid || !s.test || !s.profile) return false;
  // After the drink no baseline can be taken; what was blown before it can still be told.
  if (s.drink_start && n == sample_number(1)) return true;
  return s.grid->at(now).length > s.test->offset_of(n) + last_call_of(s, n);
}

std::chrono::seconds last_call_of(const state& s, sample_number n) {
  const sample_bounds& b = bounds_of(s);
  const bool last = n.index() + 1 == s.samples.size();
  return last ? b.last_call_last.value_or(b.last_call) : b.last_call;
}

bool waits_for_its_time(const state& s, sample_number n, const clock_reading& now) {
  if (!s.of(n).again_when_due || s.ended || !s.grid || !s.test || !s.profile) return false;
  return s.grid->at(now).length <= s.test->offset_of(n) + last_call_of(s, n);
}

std::optional<sample_number> too_close_to(const state& s, sample_number n, duration closed) {
  if (!s.test || !s.profile || !bounds_of(s).apart) return std::nullopt;
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    if (i == n.index() || !s.samples[i].taken) continue;
    const duration apart = closed - s.samples[i].taken->since_anchor;
    if (apart < *bounds_of(s).apart && -apart < *bounds_of(s).apart)
      return sample_number::from_index(i);
  }
  return std::nullopt;
}

instant due_on_wall(const state& s, sample_number n, const clock_reading& now) {
  QB_BELIEVE(s.test.has_value() && s.planned.has_value());
  if (!s.grid) return s.planned->what.start + s.test->offset_of(n);
  return now.wall + (s.test->offset_of(n) - s.grid->at(now).length);
}

} // namespace qb::inline sessions
