// The summary of a log: derived from the state, so that a reader in a hurry need not replay, and a
// reader in doubt can compare.
#include "core/record/codec_parts.hpp"
#include "core/record/log.hpp"
#include "core/time/zone.hpp"

namespace qb::inline records {

namespace {

using json::array;
using json::object;
using json::value;

value moment(const std::optional<noted_moment>& m) {
  return m ? value(rfc3339_utc(m->at.wall)) : value(nullptr);
}

value sample_summary(const state& s, sample_number n) {
  const sample_state& t = s.of(n);
  object out{{"number", std::int64_t{n.value()}}};
  const bool judged = t.taken && s.grid;
  out.emplace_back("closed", t.taken ? value(rfc3339_utc(t.taken->closed)) : value(nullptr));
  out.emplace_back("how", t.taken ? value(key_of(t.taken->how)) : value(nullptr));
  out.emplace_back("late_ms",
                   judged ? value(std::int64_t{lateness(s, n).count()}) : value(nullptr));
  out.emplace_back("closings", static_cast<std::int64_t>(t.earlier.size() + (t.taken ? 1U : 0U)));
  out.emplace_back("scores", t.symptoms ? encode_scores(t.symptoms->scores) : value(array{}));
  return out;
}

value after_summary(const state& s, score_time t) {
  const scores_after& given = s.of(t);
  return object{{"when", key_of(t)},
                {"given", rfc3339_utc(given.at->wall)},
                {"scores", encode_scores(given.told->scores)}};
}

} // namespace

json::value summary_of(const state& s) {
  array samples;
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    samples.push_back(sample_summary(s, sample_number::from_index(i)));
  object out{
      {"kit_number", s.person ? value(s.person->kit_number) : value(nullptr)},
      {"protocol", s.test ? value(s.test->id) : value(nullptr)},
      {"planned_start", s.planned ? value(rfc3339_utc(s.planned->what.start)) : value(nullptr)},
      {"anchor", s.grid ? value(rfc3339_utc(s.grid->anchor.wall)) : value(nullptr)},
      {"drink_start", moment(s.drink_start)},
      {"drink_end", moment(s.drink_end)},
      {"ended_early", moment(s.ended)},
      {"samples", std::move(samples)}};
  // Only where some were given: records of before have no such field.
  array after;
  for (const score_time t : {score_time::after_last, score_time::later}) {
    if (s.of(t).given()) after.push_back(after_summary(s, t));
  }
  if (!after.empty()) out.emplace_back("scores_after", std::move(after));
  return out;
}

} // namespace qb::inline records
