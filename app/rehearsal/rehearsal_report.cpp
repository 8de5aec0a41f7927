// One fact a kind of telling.
#include "app/rehearsal/rehearsal_report.hpp"

#include <fmt/core.h>

namespace qb::rehearsal {

namespace {

refusal not_there(sample_number n, const char* expected) {
  return {refusal_kind::out_of_range, "", "does", fmt::format("tube {}", n.value()), expected};
}

result<payload> right_closing(const scripted_telling& t, const sample_state& tube) {
  if (!tube.taken) return tl::unexpected(not_there(t.sample, "a tube that is closed by then"));
  corrected out{tube.taken->seq, right_tube{t.really}, t.words};
  if (t.what == scripted_telling::kind::time)
    out.to = right_time{tube.taken->closed + t.minutes, how_known::told};
  return payload{out};
}

} // namespace

result<payload> reported_fact(const scripted_telling& t, const state& s, instant now) {
  using kind = scripted_telling::kind;
  if (t.what == kind::trouble)
    return payload{
        reported_drink_trouble{t.mishap, t.kept, now - t.minutes, how_known::estimated, t.words}};
  if (t.what == kind::scorer) return payload{reported_scorer{t.self, t.words}};
  if (t.sample.index() >= s.samples.size())
    return tl::unexpected(not_there(t.sample, "a tube of this test"));
  const sample_state& tube = s.of(t.sample);
  if (t.what != kind::score) return right_closing(t, tube);
  if (tube.symptom_events.empty())
    return tl::unexpected(not_there(t.sample, "a tube with marks by then"));
  return payload{
      corrected{tube.symptom_events.back(), right_score{t.score.id, t.score.score}, t.words}};
}

} // namespace qb::rehearsal
