// How the world of world.hpp goes on, and what must hold in it.
// The model counts closings and true time only; everything else is the program's own.
#include "tests/property/world.hpp"

#include "core/record/log.hpp"

#include <array>
#include <fmt/core.h>
#include <utility>

namespace qb::test {

namespace {

std::string fingerprint(const state& s, const clock_reading& now) {
  const now_answer a = what_now(s, now);
  std::string out = json::canonical(summary_of(s));
  out += fmt::format("|{}|{}|{}|{}|{}|{}", static_cast<int>(a.what),
                     a.sample ? a.sample->value() : 0, a.to_due ? a.to_due->count() : -1,
                     a.next_change ? a.next_change->count() : -1, a.repeating, a.missed.size());
  out += fmt::format("|{}|{}|{}|{}|{}", s.seq, s.slips.size(), s.clock_changes.size(),
                     s.resumes.size(), s.comments.size());
  for (const scores_after& t : s.after)
    out += fmt::format("|{}|{}", t.events.size(), t.red_flags.has_value());
  out += fmt::format("|{}|{}|{}|{}", s.cautions.size(), s.washouts.size(), s.earlier_plans.size(),
                     s.kit_seq);
  if (s.grid) out += fmt::format("|{}|{}", s.grid->at(now).length.count(), s.grid->anchor_seq);
  return out;
}

// What whoever may say so told: go on.
reported_caution released(const noted_caution& told) {
  reported_caution out = told.what;
  out.outcome = asked_outcome::go_on;
  out.who = "my doctor";
  out.said_by = releaser::doctor;
  out.for_test = lactulose().id;
  return out;
}

} // namespace

payload anything_about(const deed& d, instant wall) {
  const sample_number n(d.tube);
  const auto ago = std::chrono::seconds{d.much % 3600};
  const std::array<payload, 31> all{
      // Wherever a told time lands: the record takes it, the grid stands.
      reported_drink{wall - ago, how_known::told},
      reported_drink_trouble{drink_mishap::spilled, drink_part::none, wall - ago, how_known::told,
                             ""},
      corrected{d.much % 211, right_time{wall - ago, how_known::told}, "another clock"},
      corrected{d.much % 211, right_score{"bloating", d.much % 11}, "a slip"},
      reported_scorer{d.much % 2 == 0, "my son"}, breath_begun{n},
      breath_abandoned{n, "changed my mind"}, tube_closed{n},
      reported_breath{n, wall - std::chrono::seconds{d.much % 3600}, how_known::told},
      repeat_wanted{n, "spoiled"}, reported_spoil{n, d.much % 3 == 0 ? "" : "room-air", ""},
      label_written{n}, drink_started{}, drink_ended{d.much % 2 == 0},
      reported_symptoms{n, {{"bloating", d.much % 13 - 1}, {"pain", std::nullopt}}, "caf\xC3\xA9"},
      reported_symptoms_after{score_time::later, {{"bloating", d.much % 13 - 1}}, ""},
      reported_symptoms_after{d.much % 2 == 0 ? score_time::after_last : score_time::later, {}, ""},
      reported_comment{d.much % 3 == 0 ? "two\nlines" : "a \"word\""},
      reported_slip{"fast", wall - std::chrono::minutes{d.much % 600}, how_known::estimated, "",
                    "meal"},
      // Now and then an answer that keeps a plan waiting, told again as settled.
      reported_caution{"ask-pregnancy", d.much % 5 == 0 ? caution_answer::yes : caution_answer::no,
                       asked_outcome::not_asked, "", ""},
      reported_caution{"ask-pregnancy", caution_answer::yes, asked_outcome::go_on, "my doctor", "",
                       answerer::person, releaser::doctor},
      reported_washout{{"laxatives", washout_answer::cannot_stop, std::nullopt, false}, ""},
      reported_washout{{"laxatives", washout_answer::cannot_stop, std::nullopt, true},
                       "somebody",
                       d.much % 2 == 0 ? releaser::person : releaser::laboratory},
      reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g", parse_date("2027-12-31").value()},
      plan_called_off{""}, reported_unwell{}, unwell_over{},
      scored_after_plan(utc("2027-04-07T06:30:00Z")), reported_ready{gate_checks()},
      sugar_set_aside{}, resumed{}};
  // The test ends only now and then, so that most of them go on.
  if (d.much % 97 == 0) return test_ended{"stopped"};
  return all.at(static_cast<std::size_t>(d.much) % all.size());
}

world::world(row_keeper& keeper) : keeper_(keeper), clock_(utc("2027-04-05T10:00:00Z")) {
  engine_.emplace(keeper_, std::vector<event>{});
}

void world::happen(const deed& d) {
  let_happen(d);
  // Off and set with nothing recorded between: no clock can tell how long it was.
  if (wall_was_set_ && was_off_) model_.anchor.reset();
}

void world::let_happen(const deed& d) {
  const int what = d.what % 100;
  if (what < 62) return follow(d);
  if (what < 76) return anything(d);
  if (what < 84) return clock_.pass(std::chrono::milliseconds{d.much * 13LL % 1200000});
  if (what < 89) return step_the_clock(d);
  if (what < 92) return reboot(d);
  if (what < 96) return kill(d);
  if (what < 98) {
    keeper_.slow = !keeper_.slow;
    return;
  }
  keeper_.catch_up();
  settle();
}

void world::tell(payload wanted) {
  if (engine_->saving()) return; // what is heard meanwhile has a test of its own
  const clock_reading now = clock_.look();
  const duration truly = clock_.truly();
  if (!engine_->submit(command{wanted}, now)) return;
  on_the_way_ = {std::move(wanted)};
  told_at_ = now;
  told_truly_ = truly;
  // The clocks were looked at: what was done to them before is in the record with it.
  set_before_ = std::exchange(wall_was_set_, false);
  off_before_ = std::exchange(was_off_, false);
  settle();
}

// What became durable is confirmed, and only then does the model know it.
void world::settle() {
  engine_->settle();
  if (engine_->saving() || on_the_way_.empty()) return;
  for (std::size_t i = model_.confirmed.size(); i < engine_->events().size(); ++i)
    model_.confirmed.push_back(json::canonical(encode_event(engine_->events()[i])));
  for (const payload& p : on_the_way_)
    note(p, *told_at_);
  on_the_way_.clear();
}

void world::note(const payload& p, const clock_reading& at) {
  const bool drinking = model_.frozen_at.has_value();
  if (const auto* closed = std::get_if<tube_closed>(&p)) {
    ++model_.closings[closed->sample.value()];
    const bool first = closed->sample == sample_number(1) && !drinking;
    if (first) model_.anchor = told_truly_;
  }
  if (const auto* told = std::get_if<reported_breath>(&p)) {
    if (model_.closings.empty() && !drinking && told->sample == sample_number(1))
      model_.anchor = told_truly_ - (at.wall - told->closed);
    ++model_.closings[told->sample.value()];
  }
  // A drink can be told again, and before there is any plan: only the first counts, on a grid.
  const auto* told = std::get_if<reported_drink>(&p);
  const bool begins = told != nullptr || std::holds_alternative<drink_started>(p);
  if (begins && !drinking && current().grid) {
    if (current().grid->from_drink) model_.anchor = told_truly_ - (at.wall - told->started);
    model_.frozen_at = current().grid->anchor_seq;
  }
  if (std::holds_alternative<test_ended>(p)) model_.ended = current().ended.has_value();
}

void world::follow(const deed& d) {
  settle();
  const now_answer a = what_now(current(), clock_.look());
  const auto react = std::chrono::milliseconds{d.much % 9000};
  const auto later = [&](payload p) {
    clock_.pass(react);
    tell(std::move(p));
  };
  switch (a.what) {
  case step::who:
    if (!current().opening) return tell(opened{"w", "quarterbreath", false, fenwick_text()});
    return later(invented_person());
  case step::choose:
    // The plan waits while somebody must be asked; then they are asked.
    if (const auto* told = find_noted_caution(current(), "ask-pregnancy");
        told != nullptr && told->what.outcome != asked_outcome::go_on)
      return later(released(*told));
    return later(scored_after_plan(utc("2027-04-06T06:30:00Z")));
  case step::prepare: return clock_.pass(a.next_change.value_or(duration{60s}));
  case step::gate: // all that is asked there in one deed, so that worlds get on to the tubes
    for (payload& one : gate_answers(current(), clock_.look()))
      later(std::move(one));
    return;
  case step::held:
    if (const auto* told = find_noted_caution(current(), a.held_by->rule))
      return later(released(*told));
    if (find_noted_washout(current(), a.held_by->rule) != nullptr)
      return later(reported_washout{
          {a.held_by->rule, washout_answer::never, {}, false}, "", std::nullopt, true});
    // A clock that was set years ahead makes any kit too old: another one comes.
    return later(reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g",
                              parse_date("2090-12-31").value()});
  case step::sugar: return later(sugar_set_aside{});
  case step::symptoms: return later(reported_symptoms{*a.sample, {{"bloating", d.much % 11}}, ""});
  case step::symptoms_after:
    return later(reported_symptoms_after{*a.after, {{"bloating", d.much % 11}}, ""});
  case step::red_flags: return later(reported_red_flags{*a.sample, {}, a.after});
  case step::rest:
  case step::wait:
  case step::heads_up: return clock_.pass(*a.next_change);
  case step::breathe: return later(breath_begun{*a.sample});
  case step::lead_in:
  case step::hold_breath:
  case step::blowing: return clock_.pass(*a.phase_left);
  case step::close: return later(tube_closed{*a.sample});
  case step::unsure:
    if (d.much % 2 == 0) return later(breath_abandoned{*a.sample, "not taken"});
    return later(reported_breath{*a.sample, clock_.wall() - 60s, how_known::told});
  case step::label: return later(label_written{*a.sample});
  case step::drink: return later(drink_started{});
  case step::drinking: return later(drink_ended{});
  case step::unwell:
    if (wants_signs_told(current())) return later(reported_red_flags{sample_number(1), {}});
    return later(unwell_over{has_warning_signs(current())});
  case step::finish: // handed over, and later the same day how they felt
    if (a.after && d.much % 3 == 0) clock_.pass(std::max(*a.to_due, duration{0}));
    if (a.after && *a.to_due <= duration{0})
      return later(reported_symptoms_after{*a.after, {{"bloating", d.much % 11}}, ""});
    return later(exported{});
  }
}

void world::anything(const deed& d) {
  tell(anything_about(d, clock_.wall()));
}

// From a second to ten years, either way, within the years a device can show.
void world::step_the_clock(const deed& d) {
  static const std::array<std::chrono::seconds, 6> steps{1s,     61s,       3600s,
                                                         86400s, 31557600s, 315576000s};
  duration by = steps.at(static_cast<std::size_t>(d.tube) % steps.size());
  if (d.much % 2 == 0) by = -by;
  const instant there = clock_.wall() + by;
  if (there < utc("2005-01-01T00:00:00Z") || there > utc("2065-01-01T00:00:00Z")) return;
  clock_.step(by);
  wall_was_set_ = true;
}

void world::reboot(const deed& d) {
  clock_.reboot(std::chrono::seconds{1 + d.much % 1500});
  was_off_ = true;
  kill(d);
}

void world::kill(const deed& d) {
  ++kills_;
  engine_.reset();
  const bool reached = d.much % 2 == 0;
  keeper_.killed(reached);
  auto kept = reread_rows(keeper_.rows);
  QB_BELIEVE(kept.has_value());
  engine_.emplace(keeper_, std::move(*kept));
  // What reached the disk is a fact although nobody was told; the rest never was one.
  if (!reached && !on_the_way_.empty()) {
    on_the_way_.clear();
    wall_was_set_ = wall_was_set_ || set_before_;
    was_off_ = was_off_ || off_before_;
  }
  settle();
  on_the_way_.clear();
}

std::string world::broken() const {
  const state& s = current();
  if (keeper_.rows.size() < model_.confirmed.size()) return "a confirmed entry is gone";
  for (std::size_t i = 0; i < model_.confirmed.size(); ++i) {
    if (keeper_.rows[i].body != model_.confirmed[i]) return "a confirmed entry has changed";
  }
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    const auto modelled = model_.closings.find(static_cast<int>(i) + 1);
    const std::size_t wanted = modelled == model_.closings.end() ? 0 : modelled->second;
    const sample_state& t = s.samples[i];
    if (t.earlier.size() + (t.taken ? 1U : 0U) != wanted)
      return fmt::format("tube {} has not its {} closings", i + 1, wanted);
  }
  if (model_.frozen_at && (!s.grid || s.grid->anchor_seq != *model_.frozen_at))
    return "the grid moved after the drink";
  const clock_reading now = clock_.look();
  // While a write is on its way the state still stands on the event before it.
  const bool blurred =
      engine_->saving() && (wall_was_set_ || set_before_) && (was_off_ || off_before_);
  if (s.grid && model_.anchor && !blurred) {
    const duration off = s.grid->at(now).length - (clock_.truly() - *model_.anchor);
    if (off > 1s || off < -1s) return fmt::format("due times are wrong by {} ms", off.count());
    for (std::size_t i = 1; i < s.samples.size(); ++i) {
      const auto n = sample_number::from_index(i);
      const duration last_call = i + 1 == s.samples.size() ? 900s : 450s;
      const duration past = clock_.truly() - *model_.anchor - s.test->offset_of(n) - last_call;
      if (past > 1s && !s.of(n).taken && !is_missed(s, n, now))
        return "a missed tube is not missed";
      if (past < -1s && !model_.ended && is_missed(s, n, now)) return "a tube is missed too soon";
    }
  }
  const now_answer a = what_now(s, now);
  if (a.next_change && *a.next_change <= duration{0}) return "the next change is not ahead";
  return "";
}

std::string world::broken_on_reopening() const {
  const auto kept = reread_rows(keeper_.rows);
  if (!kept) return "it cannot be reread: " + sentence(kept.error());
  const clock_reading now = clock_.look();
  if (engine_->saving()) return "";
  if (fingerprint(fold_events(*kept), now) != fingerprint(current(), now))
    return "the state after reopening is another";
  if (kept->empty()) return "";
  const auto log = read_log(write_log(*kept, "quarterbreath", ""));
  if (!log) return "its log cannot be read: " + sentence(log.error());
  return log->mismatches.empty() ? "" : "its log does not match itself";
}

patient far_gone(int begun) {
  patient p;
  if (begun == 0) p.open_and_plan();
  if (begun > 0) p.through_tube_1();
  if (begun > 1) p.label(1);
  if (begun > 2) QB_BELIEVE(p.tell(drink_started{}));
  return p;
}

} // namespace qb::test
