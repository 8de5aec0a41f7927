// The scripted person: asks what is to be done now, as a screen would, and does it.
#include "app/rehearsal/rehearsal_run.hpp"

#include "app/rehearsal/rehearsal_report.hpp"
#include "core/protocol/kit_code.hpp"
#include "core/record/codec.hpp"
#include "core/session/going_on.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::rehearsal {

namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;

// A machine's clocks that move when told to.
class simulated_clock {
public:
  simulated_clock(instant wall, const zone& z) : wall_(wall), zone_(z) {}
  [[nodiscard]] instant wall() const { return wall_; }
  [[nodiscard]] clock_reading look() const {
    return {wall_,        boot_time{boot_},       fmt::format("rehearsal-boot-{}", boots_),
            zone_.name(), zone_.offset_at(wall_), true};
  }
  void pass(duration d) {
    wall_ += d;
    boot_ += d;
  }
  void set_wall(duration by) { wall_ += by; }
  void power_cut(duration off) {
    constexpr seconds starting{40}; // as long as a small machine takes to start
    wall_ += off;
    boot_ = starting;
    ++boots_;
  }

private:
  instant wall_;
  milliseconds boot_{std::chrono::hours{1}}; // a machine that has run for a while, any will do
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
    do_what_is_dated();
    while (!failed_) {
      const now_answer a = what_now(engine_.current(), clock_.look());
      if (a.what == step::choose || (a.what == step::finish && !comes_back(a))) break;
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
    if (script_.kit_code) type_kit_code(*script_.kit_code);
    for (const caution& c : parts_.test.cautions)
      answer_question(c);
    for (const washout& w : parts_.test.washouts) {
      const auto given = script_.washouts.find(w.why.rule);
      reported_washout told;
      told.what.rule = w.why.rule;
      react_and_say(given == script_.washouts.end() ? told : given->second);
    }
    make_the_plan();
  }

  void type_kit_code(const std::string& code) {
    const auto read = read_kit_code(code);
    if (!read) {
      failed_ = read.error();
      return;
    }
    // The script names the test; the engine refuses a plan where the kit is for another.
    const bool this_test = read->protocol_letters == parts_.test.kit_letters;
    react_and_say(reported_kit{kit_code_text(*read), kit_number_of(*read),
                               this_test ? parts_.test.id : read->protocol_letters, read->expires});
  }

  // "No", or what the script has. Who was asked answers after the question was, not with it.
  void answer_question(const caution& c) {
    const auto given = script_.answers.find(c.why.rule);
    if (given == script_.answers.end())
      return react_and_say(reported_caution{c.why.rule, caution_answer::no, {}, "", ""});
    reported_caution told = given->second;
    told.for_test = parts_.test.id;
    if (told.outcome != asked_outcome::not_asked)
      react_and_say(reported_caution{c.why.rule, told.answer, {}, "", ""});
    react_and_say(std::move(told));
  }

  void make_the_plan() {
    auto made = make_plan(parts_.test, start_, parts_.place);
    if (!made) failed_ = made.error();
    if (made) react_and_say(plan_made{parts_.protocol_text, script_.form, *made});
  }

  // That time as an instant; a time that does not exist fails the script.
  [[nodiscard]] instant at(civil_time t) {
    const auto when = resolve_start(t, parts_.place, fold::first);
    if (!when && !failed_) failed_ = when.error();
    return when.value_or(clock_.wall());
  }

  void do_what_is_dated() {
    for (const scripted_deed& d : script_.deeds) {
      const instant now = at(d.done_at);
      if (now < clock_.wall() && !failed_)
        failed_ = refusal{refusal_kind::out_of_range, "", "does", civil_text(d.done_at),
                          "a time after the program is opened"};
      if (failed_) return;
      pass_until(now);
      do_dated(d);
    }
  }

  void do_dated(const scripted_deed& d) {
    switch (d.what) {
    case scripted_deed::kind::slip:
      return say(reported_slip{d.rule, at(d.when), how_known::told, d.words, d.subject});
    case scripted_deed::kind::move: start_ = at(d.when); return make_the_plan();
    case scripted_deed::kind::call_off: return say(plan_called_off{d.words});
    case scripted_deed::kind::confirm: return say(reported_checklist{d.rule, {}});
    }
  }

  // What is asked again on the morning, then the gate with what it shows as not kept.
  void pass_the_gate() {
    pass_until(start_ + script_.gate_by - before_tube_1());
    clock_.pass(script_.reaction);
    for (const caution& c : parts_.test.morning) {
      const auto given = script_.answers.find(c.why.rule);
      const reported_caution no{c.why.rule, caution_answer::no, {}, "", ""};
      say(given == script_.answers.end() ? no : given->second);
    }
    say(script_.packet.value_or(right_packet(engine_.current())));
    reported_ready ready{gate_checks()};
    const instant starts = std::max(clock_.wall(), start_ + script_.gate_by);
    for (const rule_check& c : readiness(engine_.current(), clock_.look(), starts, parts_.place)) {
      if (is_not_kept(c)) ready.not_kept.push_back(c.rule);
    }
    ready.agreed = script_.agreed;
    ready.said_by = script_.said_by;
    say(std::move(ready));
  }

  void answer(const now_answer& a) {
    switch (a.what) {
    case step::who:
    case step::choose: QB_BELIEVE(false); return; // open() has done both
    case step::prepare:
    case step::gate: return pass_the_gate();
    case step::held: return give_up(*a.held_by);
    case step::sugar: return react_and_say(sugar_set_aside{});
    case step::symptoms: return score(*a.sample);
    case step::red_flags:
      return react_and_say(reported_red_flags{
          *a.sample, a.after ? std::vector<std::string>{} : differs(*a.sample).red_flags, a.after});
    case step::wait:
    case step::heads_up: return clock_.pass(*a.next_change);
    case step::breathe: return breathe(a);
    case step::lead_in:
    case step::hold_breath:
    case step::blowing: return clock_.pass(*a.phase_left);
    case step::close: return close(*a.sample);
    case step::unsure: return say(breath_abandoned{*a.sample, "not taken"});
    case step::label: return react_and_say(label_written{*a.sample});
    case step::drink: return begin_to_drink();
    case step::drinking: return drink();
    case step::unwell: return rest();
    case step::rest: return clock_.pass(*a.next_change);
    case step::symptoms_after: return score_after(*a.after);
    case step::finish: return come_back(a);
    }
  }

  // What stands against the test is said as the engine says it, and the script ends there.
  void give_up(const hindrance& h) {
    if (!failed_) failed_ = refusal_of(engine_.current(), h);
  }

  // On, once it has passed; stopped where no going on is offered.
  void rest() {
    if (!may_feel_well_again(engine_.current())) return react_and_say(test_ended{"unwell"});
    if (wants_signs_told(engine_.current()))
      react_and_say(reported_red_flags{sample_number(1), {}});
    react_and_say(unwell_over{has_warning_signs(engine_.current())});
  }

  // Gate, sugar, symptoms and the press come before tube 1, each with its reaction.
  [[nodiscard]] duration before_tube_1() const {
    constexpr int presses = 4;
    return script_.reaction * presses;
  }

  void begin_to_drink() {
    if (!script_.reported_drink) return react_and_say(drink_started{});
    clock_.pass(*script_.reported_drink);
    react_and_say(reported_drink{clock_.wall() - *script_.reported_drink, how_known::told});
  }

  void drink() {
    constexpr int swallows = 6; // the drink takes that many reactions
    clock_.pass(script_.reaction * swallows);
    say(drink_ended{true});
    tell_after(sample_number(1));
  }

  // What is told or put right once that sample is behind.
  void tell_after(sample_number n) {
    for (const scripted_telling& t : differs(n).tellings) {
      clock_.pass(script_.reaction);
      auto fact = reported_fact(t, engine_.current(), clock_.wall());
      if (!fact && !failed_) failed_ = fact.error();
      if (failed_) return;
      say(std::move(*fact));
    }
  }

  void breathe(const now_answer& a) {
    if (script_.drink_first && !engine_.current().drink_start)
      return react_and_say(reported_drink{clock_.wall() - *script_.drink_first, how_known::told});
    const scripted_sample d = differs(*a.sample);
    if (d.missed && !a.repeating) return miss(a);
    if (!a.repeating && a.to_due && -*a.to_due < d.late_by)
      return clock_.pass(d.late_by + *a.to_due);
    react_and_say(breath_begun{*a.sample});
  }

  // A sample is missed once its last call is over. Before the drink nothing is: the test waits.
  void miss(const now_answer& a) {
    if (a.to_last_call) return clock_.pass(*a.to_last_call + milliseconds{1});
    if (!failed_)
      failed_ = refusal{refusal_kind::out_of_range, "", "does",
                        fmt::format("sample {} missed, before the drink", a.sample->value()),
                        "a later sample: the test does not go on without this one"};
  }

  void close(sample_number n) {
    react_and_say(tube_closed{n});
    const scripted_sample d = differs(n);
    const bool first_time = engine_.current().of(n).earlier.empty();
    if (d.repeat_reason && first_time) return react_and_say(repeat_wanted{n, *d.repeat_reason});
    if (d.spoil && first_time) return react_and_say(reported_spoil{n, *d.spoil, ""});
    if (d.set_clock) clock_.set_wall(*d.set_clock);
    if (d.power_cut) {
      clock_.power_cut(*d.power_cut);
      say(resumed{});
    }
    if (d.unwell) {
      react_and_say(reported_unwell{});
      if (d.ends) react_and_say(test_ended{"unwell"});
    }
  }

  void score(sample_number n) {
    const scripted_sample d = differs(n);
    reported_symptoms told{n, {}, d.comment};
    for (const symptom& s : parts_.test.symptoms) {
      const auto given = script_.scores.find(s.id);
      symptom_score one{s.id, std::nullopt};
      if (!d.skip_symptoms && given != script_.scores.end() && n.index() < given->second.size())
        one.score = given->second[n.index()];
      told.scores.push_back(std::move(one));
    }
    react_and_say(std::move(told));
    if (n != sample_number(1)) tell_after(n); // after tube 1 comes the drink
  }

  // The list of a symptom goes on behind the tubes: after the last tube, then later the same day.
  [[nodiscard]] std::optional<int> score_behind_tubes(const std::string& symptom,
                                                      score_time t) const {
    const auto given = script_.scores.find(symptom);
    const std::size_t at = parts_.test.samples() + static_cast<std::size_t>(t);
    if (given == script_.scores.end() || at >= given->second.size()) return std::nullopt;
    return given->second[at];
  }
  void score_after(score_time t) {
    reported_symptoms_after told{t, {}, ""};
    bool any = false;
    for (const symptom& s : parts_.test.symptoms) {
      told.scores.push_back({s.id, score_behind_tubes(s.id, t)});
      any = any || told.scores.back().score;
    }
    if (!any) told.scores.clear(); // not now
    react_and_say(std::move(told));
  }

  // Whether the script has scores for later the same day: a test is over, or called off, else.
  [[nodiscard]] bool comes_back(const now_answer& a) const {
    return a.after && std::any_of(parts_.test.symptoms.begin(), parts_.test.symptoms.end(),
                                  [&](const symptom& s) {
                                    return score_behind_tubes(s.id, *a.after).has_value();
                                  });
  }
  void come_back(const now_answer& a) {
    if (*a.to_due > duration{0}) return clock_.pass(*a.to_due);
    score_after(*a.after);
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

} // namespace qb::rehearsal
