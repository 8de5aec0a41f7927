// One function a kind of correction.
#include "core/session/correct.hpp"

#include <algorithm>
#include <utility>

namespace qb::inline sessions {

namespace {

// A time that was told, counted back from now as any told time is.
duration since_anchor(const state& s, const event& e, instant told) {
  return s.grid->at(e.at).length - (e.at.wall - told);
}

void right_closing(state& s, const event& e, sample_number n, const right_time& to) {
  taken_breath& breath = *s.samples[n.index()].taken;
  s.corrections.back().time_was = breath.closed;
  if (s.grid) breath.since_anchor = since_anchor(s, e, to.time);
  breath.closed = to.time;
  breath.offset = e.at.offset;
  breath.sure = certainty::by_wall;
  breath.how = to.how;
  s.samples[n.index()].label_done = false; // another time stands on it now
}

// The reading moves on both clocks, so that lengths from and to it follow.
void right_moment(state& s, noted_moment& m, instant to) {
  s.corrections.back().time_was = m.at.wall;
  const duration by = to - m.at.wall;
  m.at.wall = to;
  if (m.at.boot) *m.at.boot += by;
}

void right(state& s, const event& e, std::int64_t seq, const right_time& to) {
  if (const auto n = sample_closed_by(s, seq)) {
    s.corrections.back().sample = n;
    return right_closing(s, e, *n, to);
  }
  if (s.drink_start && s.drink_start->seq == seq) {
    s.drink_start_how = to.how;
    return right_moment(s, *s.drink_start, to.time);
  }
  if (s.drink_end && s.drink_end->seq == seq) right_moment(s, *s.drink_end, to.time);
}

void renumber(sample_state& t, sample_number n) {
  if (t.symptoms) t.symptoms->sample = n;
  if (t.red_flags) t.red_flags->sample = n;
}

// Two tubes that were both blown change places with all that was told of them. A tube that was not
// blown yet takes the breath over; where its own time is still to come it is blown again then.
void right(state& s, const event& e, std::int64_t seq, const right_tube& to) {
  const sample_number told = *sample_closed_by(s, seq);
  sample_state& a = s.samples[told.index()];
  sample_state& b = s.samples[to.really.index()];
  s.corrections.back().sample = told;
  s.corrections.back().both_blown = b.taken.has_value();
  if (b.taken) {
    std::swap(a, b);
    renumber(a, told);
    renumber(b, to.really);
  } else {
    b.again_when_due = !is_missed(s, to.really, e.at);
    b.taken = std::exchange(a.taken, std::nullopt);
    a.repeat_reason.reset();
    if (!a.earlier.empty()) { // what it holds is what was blown into it before
      a.taken = a.earlier.back();
      a.earlier.pop_back();
    }
  }
  a.label_done = false;
  b.label_done = false;
}

// Answers what stood there.
std::optional<int> right_one(std::vector<symptom_score>& scores, const right_score& to) {
  for (symptom_score& x : scores) {
    if (x.id == to.symptom) return std::exchange(x.score, to.score);
  }
  scores.push_back({to.symptom, to.score});
  return std::nullopt;
}

void right(state& s, const event& e, std::int64_t seq, const right_score& to) {
  noted_correction& noted = s.corrections.back();
  if (const auto n = sample_scored_by(s, seq)) {
    sample_state& t = s.samples[n->index()];
    noted.sample = n;
    noted.score_was = right_one(t.symptoms->scores, to);
    t.symptom_events.push_back(e.seq);
    return;
  }
  noted.after = scores_after_told_by(s, seq);
  scores_after& t = s.after.at(static_cast<std::size_t>(*noted.after));
  noted.score_was = right_one(t.told->scores, to);
  t.events.push_back(e.seq);
}

} // namespace

std::optional<sample_number> sample_closed_by(const state& s, std::int64_t seq) {
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    if (s.samples[i].taken && s.samples[i].taken->seq == seq) return sample_number::from_index(i);
  }
  return std::nullopt;
}

std::optional<sample_number> sample_scored_by(const state& s, std::int64_t seq) {
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    const auto& told = s.samples[i].symptom_events;
    if (s.samples[i].symptoms && std::find(told.begin(), told.end(), seq) != told.end())
      return sample_number::from_index(i);
  }
  return std::nullopt;
}

std::optional<score_time> scores_after_told_by(const state& s, std::int64_t seq) {
  for (const score_time t : {score_time::after_last, score_time::later}) {
    const auto& told = s.of(t).events;
    if (s.of(t).given() && std::find(told.begin(), told.end(), seq) != told.end()) return t;
  }
  return std::nullopt;
}

bool can_correct(const state& s, const corrected& x) {
  const auto closed = sample_closed_by(s, x.seq);
  if (std::holds_alternative<right_time>(x.to)) {
    const auto is = [&](const auto& m) { return m && m->seq == x.seq; };
    return closed || is(s.drink_start) || is(s.drink_end);
  }
  if (const auto* tube = std::get_if<right_tube>(&x.to))
    return closed && tube->really != *closed && tube->really.index() < s.samples.size();
  return sample_scored_by(s, x.seq) || scores_after_told_by(s, x.seq);
}

void correct(state& s, const event& e, const corrected& x) {
  if (!can_correct(s, x)) return;
  s.corrections.push_back({e.seq, x, {}, {}, {}, {}, false});
  std::visit([&](const auto& to) { right(s, e, x.seq, to); }, x.to);
}

} // namespace qb::inline sessions
