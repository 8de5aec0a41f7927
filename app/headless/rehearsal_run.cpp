// The scripted person: asks what is to be done now, as a screen would, and does it.
#include "app/headless/rehearsal_run.hpp"

#include "core/record/codec.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb {

namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;

// A machine's clocks that move when told to.
class simulated_clock {
public:
  simulated_clock(instant wall, const zone& z) : wall_(wall), zone_(z) {}
  [[nodiscard]] instant wall() const { return wall_; }
  [[nodiscard]] reading look() const {
    return {wall_,        boot_time{boot_},       fmt::format("rehearsal-boot-{}", boots_),
            zone_.name(), zone_.offset_at(wall_), true};
  }
  void pass(duration d) {
    wall_ += d;
    boot_ += d;
  }
  void set_wall(duration by) { wall_ += by; }
  void power_cut(duration off) {
    constexpr seconds starting{40};
    wall_ += off;
    boot_ = starting;
    ++boots_;
  }

private:
  instant wall_;
  milliseconds boot_{seconds{3600}}; // number: a machine that has run for an hour, any will do
  int boots_{1};
  const zone& zone_;
};

class player {
public:
  player(const rehearsal_script& script, const rehearsal_parts& parts, engine& e,
         const after_command& done, instant begins, instant start)
      : script_(script),
        parts_(parts),
        engine_(e),
        done_(done),
        clock_(begins, parts.place),
        start_(start) {}

  result<void> run() {
    open();
    tell_slips();
    while (!failed_) {
      const now_answer a = what_now(engine_.current(), clock_.look());
      if (a.what == step::finish) break;
      answer(a);
      QB_BELIEVE(++turns_ < 10000); // every turn does or passes something
    }
    if (failed_) return tl::unexpected(*failed_);
    return {};
  }

private:
  void say(payload wanted) {
    if (failed_) return;
    const auto accepted = engine_.submit(command{std::move(wanted)}, clock_.look());
    if (!accepted) failed_ = accepted.error();
    if (accepted) done_(engine_);
  }
  void react_and_say(payload wanted) {
    clock_.pass(script_.reaction);
    say(std::move(wanted));
  }
  void pass_until(instant t) {
    if (t > clock_.wall()) clock_.pass(t - clock_.wall());
  }
  [[nodiscard]] scripted_sample differs(sample_number n) const {
    const auto at = script_.samples.find(n.value());
    return at == script_.samples.end() ? scripted_sample{} : at->second;
  }

  void open() {
    const std::string id = sha256_hex(script_.title + script_.person.kit_number);
    say(opened{"rehearsal-" + id.substr(0, 16), parts_.program, true, parts_.profile_text});
    react_and_say(script_.person);
    auto made = make_plan(parts_.test, start_, parts_.place);
    if (!made) failed_ = made.error();
    if (made) react_and_say(plan_made{parts_.protocol_text, script_.form, *made});
  }

  void tell_slips() {
    for (const scripted_slip& slip : script_.slips) {
      const auto when = resolve_start(slip.at, parts_.place, fold::first);
      const auto told = resolve_start(slip.told_at, parts_.place, fold::first);
      if (!when || !told) {
        failed_ = !when ? when.error() : told.error();
        return;
      }
      pass_until(*told);
      say(slip_told{slip.rule, *when, how_known::told, slip.words});
    }
  }

  void answer(const now_answer& a) {
    switch (a.what) {
    case step::who:
    case step::choose: QB_BELIEVE(false); return; // open() has done both
    case step::prepare:
    case step::gate:
      pass_until(start_ + script_.gate_by - before_tube_1());
      return react_and_say(ready_told{gate_checks()});
    case step::sugar: return react_and_say(sugar_set_aside{});
    case step::symptoms: return score(*a.sample);
    case step::wait:
    case step::heads_up: return clock_.pass(*a.next_change);
    case step::breathe: return breathe(a);
    case step::lead_in:
    case step::blowing: return clock_.pass(*a.phase_left);
    case step::close: return close(*a.sample);
    case step::unsure: return say(breath_abandoned{*a.sample, "not taken"});
    case step::label: return react_and_say(label_written{*a.sample});
    case step::drink: return react_and_say(drink_started{});
    case step::drinking: return drink();
    case step::unwell: return react_and_say(unwell_over{});
    case step::finish: return;
    }
  }

  // Gate, sugar, symptoms and the press come before tube 1, each with its reaction.
  [[nodiscard]] duration before_tube_1() const {
    constexpr int presses = 4;
    return script_.reaction * presses;
  }

  void drink() {
    constexpr int swallows = 6; // the drink takes that many reactions
    clock_.pass(script_.reaction * swallows);
    say(drink_ended{true});
  }

  void breathe(const now_answer& a) {
    const scripted_sample d = differs(*a.sample);
    if (d.missed && !a.repeating) return clock_.pass(*a.to_last_call + milliseconds{1});
    if (!a.repeating && a.to_due && -*a.to_due < d.late_by)
      return clock_.pass(d.late_by + *a.to_due);
    react_and_say(breath_begun{*a.sample});
  }

  void close(sample_number n) {
    react_and_say(tube_closed{n});
    const scripted_sample d = differs(n);
    const bool first_time = engine_.current().of(n).earlier.empty();
    if (d.repeat_reason && first_time) return react_and_say(repeat_wanted{n, *d.repeat_reason});
    if (d.set_clock) clock_.set_wall(*d.set_clock);
    if (d.power_cut) {
      clock_.power_cut(*d.power_cut);
      say(resumed{});
    }
    if (d.unwell) {
      react_and_say(unwell_told{});
      if (d.ends) react_and_say(test_ended{"unwell"});
    }
  }

  void score(sample_number n) {
    const scripted_sample d = differs(n);
    symptoms_told told{n, {}, d.comment};
    for (const symptom& s : parts_.test.symptoms) {
      const auto given = script_.scores.find(s.id);
      symptom_score one{s.id, std::nullopt};
      if (!d.skip_symptoms && given != script_.scores.end() && n.index() < given->second.size())
        one.score = given->second[n.index()];
      told.scores.push_back(std::move(one));
    }
    react_and_say(std::move(told));
  }

  const rehearsal_script& script_;
  const rehearsal_parts& parts_;
  engine& engine_;
  const after_command& done_;
  simulated_clock clock_;
  instant start_;
  std::optional<refusal> failed_;
  int turns_{0};
};

} // namespace

result<void> play(const rehearsal_script& script, const rehearsal_parts& parts, engine& e,
                  const after_command& done) {
  const auto begins = resolve_start(script.begins, parts.place, fold::first);
  if (!begins) return tl::unexpected(begins.error());
  const auto start = resolve_start(script.start, parts.place, fold::first);
  if (!start) return tl::unexpected(start.error());
  return player(script, parts, e, done, *begins, *start).run();
}

} // namespace qb
