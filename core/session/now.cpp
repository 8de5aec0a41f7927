// What is to be done now, derived from the state and one reading.
#include "core/session/now.hpp"

#include "core/session/after_loss.hpp"
#include "core/session/going_on.hpp"
#include "core/session/scores_after.hpp"

#include <algorithm>

namespace qb::inline sessions {

namespace {

void change_in(now_answer& a, duration d) {
  if (d <= duration{0}) return;
  if (!a.next_change || d < *a.next_change) a.next_change = d;
}

void before_the_start(const state& s, const clock_reading& now, now_answer& a) {
  const plan& p = s.planned->what;
  instant gate_opens = p.start;
  for (const planned_window& w : p.windows) {
    change_in(a, w.from - now.wall);
    change_in(a, w.until - now.wall);
    if (w.from <= now.wall && now.wall < w.until) a.holding.push_back(w);
    if (w.from > now.wall && (!a.next || w.from < a.next->from)) a.next = w;
    // The windows of the last hour are the ones that begin last.
    gate_opens = w.from > gate_opens || gate_opens == p.start ? w.from : gate_opens;
  }
  change_in(a, p.start - now.wall);
  if (!s.ready) {
    a.what = now.wall < gate_opens ? step::prepare : step::gate;
    a.to_due = p.start - now.wall;
  } else {
    a.what = step::sugar;
  }
}

// When what stands against going on can change by itself: answers grow old, a rule that was cut
// short is kept longer, a kit's last day ends.
void changes_of_holding(const state& s, const clock_reading& now, now_answer& a) {
  constexpr std::chrono::milliseconds after{1}; // a bound belongs to what it ends
  for (const caution& c : s.test->morning) {
    const noted_caution* told = find_noted_caution(s, c.why.rule);
    if (told != nullptr && !s.breath)
      change_in(a, morning_answers_hold - between(told->at, now).length + after);
  }
  for (const rule_check& c : readiness_now(s, now)) {
    if (c.kept && !c.in_days) change_in(a, c.least - *c.kept);
  }
  const auto to_day = [&](civil_date day) {
    return std::chrono::local_days{day}.time_since_epoch() - now.offset -
           counted_now(s, now).time_since_epoch();
  };
  if (s.kit) change_in(a, to_day(plus_days(s.kit->expires, std::chrono::days{1})));
  if (s.person && s.test->age_to_years)
    change_in(a, to_day(s.person->birth_date + std::chrono::years{*s.test->age_to_years + 1}));
}

bool signs_are_asked(const state& s, now_answer& a);

// Whether something stands against going on that is asked before anything else: a page of its own,
// the warning signs, or the gate once more where that was passed, or passed by.
bool is_held(const state& s, const clock_reading& now, now_answer& a) {
  const bool at_the_sugar = s.ready || s.grid;
  if (at_the_sugar) changes_of_holding(s, now, a);
  a.held_by = holding_back(s, now);
  if (a.held_by) {
    a.what = step::held;
    return true;
  }
  if (!s.breath && signs_are_asked(s, a)) return true;
  if (!at_the_sugar || (s.ready && hindrances(s, now).empty())) return false;
  a.what = step::gate;
  a.to_due = s.planned->what.start - now.wall;
  return true;
}

// Whether something that may be lost has a screen of its own on which it is told again: who the
// person is, and what they feel. The rest is asked by the gate.
bool is_asked_again(const state& s, now_answer& a) {
  if (is_person_lost(s)) {
    a.what = step::who;
    return true;
  }
  if (!are_signs_lost(s) || s.samples.empty()) return false;
  a.what = step::red_flags;
  a.sample = sample_number(1);
  return true;
}

// Inside a guided breath: lead-in, holding where the protocol asks for it, blowing, then the
// closing is waited for.
void in_breath(const state& s, const clock_reading& now, now_answer& a) {
  const duration since = between(s.breath->began, now).length;
  const duration lead_in = bounds_of(s).lead_in;
  const duration to_blow = before_blowing(s);
  const duration blow = s.test->breath_most;
  a.sample = s.breath->sample;
  if (s.breath->interrupted) {
    a.what = step::unsure;
  } else if (since < lead_in) {
    a.what = step::lead_in;
    a.phase_length = lead_in;
    a.phase_left = lead_in - since;
  } else if (since < to_blow) {
    a.what = step::hold_breath;
    a.phase_length = s.test->breath_hold;
    a.phase_left = to_blow - since;
  } else if (since < to_blow + blow) {
    a.what = step::blowing;
    a.phase_length = blow;
    a.phase_left = to_blow + blow - since;
  } else {
    // A closing that nobody saw for longer than a sample may be late is asked about.
    const duration unsure_after = to_blow + blow + bounds_of(s).on_time;
    a.what = since < unsure_after ? step::close : step::unsure;
    change_in(a, unsure_after - since);
  }
  if (a.phase_left) change_in(a, *a.phase_left);
}

// The sample the grid is at: the first neither taken nor missed.
std::optional<sample_number> next_sample(const state& s, const clock_reading& now) {
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    const auto n = sample_number::from_index(i);
    if (!s.samples[i].taken && !is_missed(s, n, now)) return n;
    if (waits_for_its_time(s, n, now)) return n;
  }
  return std::nullopt;
}

// Whether the warning signs are asked: only how the person feels now is asked about, so only the
// scores given last call for them.
bool signs_are_asked(const state& s, now_answer& a) {
  for (const score_time t : {score_time::later, score_time::after_last}) {
    if (!s.of(t).given()) continue;
    if (!asks_red_flags(s, t)) return false;
    a.sample = sample_number::from_index(s.samples.size() - 1);
    a.after = t;
    a.what = step::red_flags;
    return true;
  }
  for (std::size_t i = s.samples.size(); i-- > 0;) {
    if (!s.samples[i].symptoms) continue;
    if (!asks_red_flags(s, sample_number::from_index(i))) return false;
    a.sample = sample_number::from_index(i);
    a.what = step::red_flags;
    return true;
  }
  return false;
}

// Labels first, since a tube without its time is lost; then symptoms; the oldest first.
bool paperwork(const state& s, const clock_reading& now, now_answer& a) {
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    if (!s.samples[i].taken || s.samples[i].label_done) continue;
    if (waits_for_its_time(s, sample_number::from_index(i), now)) continue;
    a.sample = sample_number::from_index(i);
    a.what = step::label;
    return true;
  }
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    if (!s.samples[i].taken || s.samples[i].symptoms) continue;
    if (waits_for_its_time(s, sample_number::from_index(i), now)) continue;
    a.sample = sample_number::from_index(i);
    a.what = step::symptoms;
    return true;
  }
  return false;
}

void timing_of_sample(const state& s, sample_number n, duration since, now_answer& a) {
  const sample_bounds& b = bounds_of(s);
  a.to_due = s.test->offset_of(n) - since;
  const std::chrono::seconds last_call = last_call_of(s, n);
  a.to_last_call = *a.to_due + last_call;
  a.late = -*a.to_due > b.on_time;
  for (const duration edge : {duration{b.heads_up}, duration{b.early}, duration{0}})
    change_in(a, *a.to_due - edge);
  // A bound belongs to what it ends: the answer changes just after it.
  for (const duration last : {duration{b.on_time}, duration{last_call}})
    change_in(a, *a.to_due + last + std::chrono::milliseconds{1});
}

void drink_step(const state& s, duration since, now_answer& a) {
  const duration left = s.profile->drink.after_tube_1 - since;
  a.what = s.drink_start ? step::drinking : step::drink;
  a.drink_overdue = !s.drink_start && left < duration{0};
  if (!s.drink_start) change_in(a, left + std::chrono::milliseconds{1});
}

// Behind the last tube: scores after it are waited for and asked, later ones only offered.
void after_the_tubes(const state& s, const clock_reading& now, now_answer& a) {
  a.what = step::finish;
  std::optional<scores_wanted> wanted = wanted_scores(s, score_time::after_last, now);
  if (wanted) a.what = wanted->to_due > duration{0} ? step::rest : step::symptoms_after;
  if (!wanted) wanted = wanted_scores(s, score_time::later, now);
  if (!wanted) return;
  a.after = wanted->what;
  a.to_due = wanted->to_due;
  a.to_last_call = wanted->to_end;
  change_in(a, wanted->to_due);
  change_in(a, wanted->to_end);
}

void on_the_grid(const state& s, const clock_reading& now, now_answer& a) {
  const elapsed since = s.grid->at(now);
  a.sure = since.how;
  const auto next = next_sample(s, now);
  if (next) timing_of_sample(s, *next, since.length, a);
  // How the person is comes before any tube.
  if (s.drink_start && signs_are_asked(s, a)) return;
  // A due sample comes before everything else but a drink that has not been started: without the
  // drink there is nothing to sample.
  const bool due = a.to_due && *a.to_due <= duration{0};
  if (due && s.drink_start) {
    a.sample = next;
    a.what = step::breathe;
    return;
  }
  const bool no_baseline = !s.drink_start && !s.samples.front().taken;
  if (no_baseline) { // its breath went into another tube, or is not to count
    a.sample = sample_number(1);
    a.what = step::breathe;
    return;
  }
  if (const auto again = wanted_repeat(s)) {
    a.sample = again;
    a.repeating = true;
    a.what = step::breathe;
    return;
  }
  const bool label_first = s.samples.front().taken && !s.samples.front().label_done;
  if (!s.drink_end && !label_first) return drink_step(s, since.length, a);
  if (paperwork(s, now, a)) return;
  a.sample = next;
  if (!next) return after_the_tubes(s, now, a);
  a.what = *a.to_due <= bounds_of(s).heads_up ? step::heads_up : step::wait;
}

} // namespace

now_answer what_now(const state& s, const clock_reading& now) {
  now_answer a;
  if (s.unwell && (s.ended || !s.planned)) { // safety comes before every question
    a.what = step::unwell;
    return a;
  }
  if (!s.opening || !s.profile || !s.person) return a;
  if (!s.planned || !s.test) {
    a.what = step::choose;
    return a;
  }
  if (s.ended) {
    a.what = step::finish;
    for (std::size_t i = 0; i < s.samples.size(); ++i) {
      if (!s.samples[i].taken) a.missed.push_back(sample_number::from_index(i));
    }
    return a;
  }
  for (std::size_t i = 0; s.grid && i < s.samples.size(); ++i) {
    const auto n = sample_number::from_index(i);
    if (is_missed(s, n, now)) a.missed.push_back(n);
  }
  if (!s.unwell && !s.drink_start && is_asked_again(s, a)) return a;
  if (!s.unwell && !s.drink_start && is_held(s, now, a)) return a;
  if (s.breath) {
    in_breath(s, now, a);
  } else if (s.grid) {
    on_the_grid(s, now, a);
  } else {
    before_the_start(s, now, a);
    const bool baseline_scored = !s.samples.empty() && s.samples.front().symptoms.has_value();
    if (s.ready && s.sugar) {
      a.sample = sample_number(1);
      a.what = baseline_scored ? step::breathe : step::symptoms;
    }
  }
  if (s.unwell) a.what = step::unwell;
  return a;
}

std::optional<sample_number> wanted_repeat(const state& s) {
  for (std::size_t i = s.samples.size(); i-- > 0;) {
    if (!s.samples[i].taken) continue;
    const bool baseline_is_over = i == 0 && s.drink_start;
    if (s.samples[i].repeat_reason && !baseline_is_over) return sample_number::from_index(i);
    return std::nullopt;
  }
  return std::nullopt;
}

bool may_repeat(const state& s, sample_number n) {
  if (s.ended || !s.of(n).taken || (n == sample_number(1) && s.drink_start)) return false;
  for (std::size_t i = n.index() + 1; i < s.samples.size(); ++i) {
    if (s.samples[i].taken) return false;
  }
  return true;
}

bool has_time_to_repeat(const state& s, sample_number n, const clock_reading& now) {
  if (!s.grid || !s.test || !s.profile) return false;
  if (n == sample_number(1) && !s.drink_start) return true;
  const duration ready = s.grid->at(now).length + before_blowing(s) + s.test->breath_most;
  const std::size_t next = n.index() + 1;
  const bool before_next =
      next >= s.samples.size() || ready < s.test->offset_of(sample_number::from_index(next));
  return before_next && ready <= s.test->offset_of(n) + last_call_of(s, n);
}

namespace {

// Scores of one moment, and those after which the signs were asked then.
struct scored_moment {
  std::vector<symptom_score> scores;
  std::vector<symptom_score> asked_at;
};

// All that can be scored, in the order of time: the tubes, then what belongs to none.
std::vector<scored_moment> scored_moments(const state& s) {
  std::vector<scored_moment> out;
  for (const sample_state& t : s.samples)
    out.push_back(
        {t.symptoms ? t.symptoms->scores : std::vector<symptom_score>{}, t.signs_asked_at});
  for (const scores_after& t : s.after)
    out.push_back({t.told ? t.told->scores : std::vector<symptom_score>{}, t.signs_asked_at});
  return out;
}

std::optional<int> score_of(const std::vector<symptom_score>& scores, const std::string& id) {
  const auto found = std::find_if(scores.begin(), scores.end(),
                                  [&](const symptom_score& y) { return y.id == id; });
  return found == scores.end() ? std::nullopt : found->score;
}

// Whether the scores of that moment, held against those before it, call for the signs.
bool calls_for_signs(const state& s, std::size_t at) {
  if (!s.profile || !s.test) return false;
  const std::vector<scored_moment> all = scored_moments(s);
  const std::optional<int> rise = s.test->warnings.rise ? s.test->warnings.rise : s.profile->rise;
  const std::optional<int> level = s.test->warnings.level;
  for (const symptom_score& x : all.at(at).scores) {
    std::optional<int> first; // what it rises above: the earliest score there is
    std::optional<int> asked; // the highest at which the signs were asked already
    for (std::size_t i = 0; x.score && i <= at; ++i) {
      if (!first && i < at) first = score_of(all[i].scores, x.id);
      asked = std::max(asked, score_of(all[i].asked_at, x.id));
    }
    if (!x.score || x.score <= asked) continue;
    if (rise && first && *x.score - *first >= *rise) return true;
    if (level && *x.score >= *level) return true;
  }
  return false;
}

} // namespace

bool wants_signs_asked(const state& s) {
  now_answer where;
  return signs_are_asked(s, where);
}

bool wants_signs_told(const state& s) {
  if (!s.unwell || !s.planned || !s.test || s.ended) return false;
  const bool told =
      s.warnings && (!s.warnings->what.present.empty() || s.warnings->seq > s.unwell->seq);
  return !told;
}

bool asks_red_flags(const state& s, sample_number n) {
  return calls_for_signs(s, n.index());
}

bool asks_red_flags(const state& s, score_time t) {
  return calls_for_signs(s, s.samples.size() + static_cast<std::size_t>(t));
}

bool may_start_early(const state& s, const clock_reading& now) {
  if (!s.planned || s.grid || s.ended) return false;
  instant fast_begins = s.planned->what.start;
  for (const planned_window& w : s.planned->what.windows) {
    if (w.until == s.planned->what.start) fast_begins = std::min(fast_begins, w.from);
  }
  return now.wall >= fast_begins;
}

const std::vector<std::string>& gate_checks() {
  static const std::vector<std::string> checks{
      "sugar-matches", "morning-questions", "tubes-ready", "power", "sound", "home-until-end"};
  return checks;
}

} // namespace qb::inline sessions
