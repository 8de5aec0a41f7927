// One whole test lived through on clocks that can be tampered with at any moment, and beside it a
// true clock that nothing can fool.
// What must hold is asked after every event and every look: it is the fault table's judge.
#pragma once

#include "core/findings/findings.hpp"
#include "tests/property/row_keeper.hpp"
#include "tests/support/scripted_test.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace qb::test {

class life;

// What happens at a boundary, and what the record must say of it in the end.
struct fault {
  std::string name;
  std::function<void(life&)> strike;
  std::function<std::string(const life&)> missing; // what the log does not say; "" for nothing
};

// One test from the first screen to the last, followed by a person who looks every ten seconds.
class life {
public:
  explicit life(instant start) : clock(start - 30min), start_(start) {
    engine_.emplace(keeper_, std::vector<event>{});
  }

  // Once only. Answers what went wrong, "" for nothing. The fault strikes after that many events
  // were told.
  std::string live(const fault& f, int boundary) {
    for (int turn = 0; turn < 5000 && wrong_.empty(); ++turn) {
      if (told_ == boundary && !struck_) {
        struck_ = true;
        f.strike(*this);
      }
      if (current().exported_at) break;
      go_on();
    }
    if (wrong_.empty() && !current().exported_at) wrong_ = "the test does not come to its end";
    if (set_right_) pass(set_right_->first - clock.truly() + 1s);
    tell(reported_comment{"after it all"});
    if (wrong_.empty()) wrong_ = f.missing(*this);
    return wrong_;
  }

  // The machine is off and starts anew with its wall clock that far off; the program comes back.
  void restart(duration off, duration wall_off, bool synchronised) {
    true_gap = off;
    clock.reboot(off);
    clock.step(wall_off);
    clock.synchronised = synchronised;
    is_bounded_ = anchor_.has_value() && wall_off != duration{0};
    engine_.reset();
    auto kept = reread_rows(keeper_.rows);
    QB_BELIEVE(kept.has_value());
    engine_.emplace(keeper_, std::move(*kept));
    tell(resumed{});
  }
  // A time service sets the clock right, that much later.
  void set_right_after(duration later, duration by) { set_right_ = {clock.truly() + later, by}; }

  void pass(duration d) {
    if (set_right_ && clock.truly() + d >= set_right_->first) {
      const duration until = set_right_->first - clock.truly();
      clock.pass(until);
      clock.step(set_right_->second);
      clock.synchronised = true;
      is_bounded_ = false;
      set_right_.reset();
      d -= until;
      check();
    }
    clock.pass(d);
    check();
  }

  [[nodiscard]] const state& current() const { return engine_->current(); }
  [[nodiscard]] const std::vector<event>& events() const { return engine_->events(); }
  [[nodiscard]] const std::vector<duration>& reported_at() const { return told_at_; }
  [[nodiscard]] std::optional<finding> found(const std::string& rule) const {
    for (const finding& f :
         findings_of(current(), clock.look(), zone_named(current().planned->what.zone_name))) {
      if (f.rule == rule) return f;
    }
    return std::nullopt;
  }

  clock_double clock;
  duration true_gap{0};

private:
  void tell(payload wanted) {
    if (!wrong_.empty()) return;
    const bool closes_1 = std::holds_alternative<tube_closed>(wanted) && !anchor_;
    if (const auto done = engine_->submit(command{std::move(wanted)}, clock.look()); !done) {
      wrong_ = "refused: " + sentence(done.error());
      return;
    }
    ++told_;
    told_at_.push_back(clock.truly());
    if (closes_1) anchor_ = clock.truly();
    for (std::size_t i = confirmed_.size(); i < keeper_.rows.size(); ++i)
      confirmed_.push_back(keeper_.rows[i].body);
    note_closing();
    check();
  }
  void later(payload wanted) {
    pass(4s);
    tell(std::move(wanted));
  }

  // What the label of a tube was told to show, and the truth behind it.
  void note_closing() {
    const event& last = events().back();
    if (const auto* closed = std::get_if<tube_closed>(&last.what))
      labels_[closed->sample.value()] = {last.at, clock.truly() - *anchor_, is_bounded_};
  }

  void go_on() {
    const state& s = current();
    if (!s.opening) return tell(opened{"t", "quarterbreath", false, fenwick_text()});
    if (!s.person) return later(invented_person());
    if (!s.planned) return later(plan_of(start_));
    if (!s.grid && !s.breath) return before_tube_1();
    const now_answer a = what_now(s, clock.look());
    switch (a.what) {
    case step::symptoms: return later(reported_symptoms{*a.sample, {{"bloating", 1}}, ""});
    case step::symptoms_after:
      return later(reported_symptoms_after{*a.after, {{"bloating", 1}}, ""});
    case step::rest:
    case step::wait:
    case step::heads_up: return pass(std::min<duration>(*a.next_change, 10s));
    case step::breathe: return later(breath_begun{*a.sample});
    case step::lead_in:
    case step::hold_breath:
    case step::blowing: return pass(*a.phase_left);
    case step::close: return tell(tube_closed{*a.sample});
    case step::unsure: return later(breath_abandoned{*a.sample, "not taken"});
    case step::label: return later(label_written{*a.sample});
    case step::drink: return later(drink_started{});
    case step::drinking: return later(drink_ended{});
    case step::finish: return later(exported{});
    default: wrong_ = "a step out of place";
    }
  }

  // Before tube 1 the person goes by the clock on the kitchen wall.
  void before_tube_1() {
    const state& s = current();
    if (!s.ready) {
      const duration left = duration{28min} - clock.truly();
      if (left > duration{0}) return pass(std::min<duration>(left, 60s));
      return later(gate_answers(s, clock.look()).front());
    }
    if (!s.sugar) return later(sugar_set_aside{});
    if (!s.samples.front().symptoms)
      return later(reported_symptoms{sample_number(1), {{"bloating", 0}}, ""});
    later(breath_begun{sample_number(1)});
  }

  void check() {
    if (wrong_.empty()) wrong_ = broken();
  }
  [[nodiscard]] std::string broken() const {
    for (std::size_t i = 0; i < confirmed_.size(); ++i) {
      if (i >= keeper_.rows.size() || keeper_.rows[i].body != confirmed_[i])
        return "a confirmed entry is lost or changed";
    }
    const state& s = current();
    if (!s.grid || !anchor_) return "";
    const elapsed e = s.grid->at(clock.look());
    const duration truth = clock.truly() - *anchor_;
    if (e.at_least > truth) return "the lower bound is above the truth";
    if (e.length < e.at_least) return "the time taken for true is below what is sure";
    if (is_bounded_ && e.how == certainty::exact) return "a guess is called exact";
    const duration off = e.length - truth;
    if (!is_bounded_ && (off > 1s || off < -1s))
      return fmt::format("due times are wrong by {} ms", off.count());
    return broken_labels();
  }
  [[nodiscard]] std::string broken_labels() const {
    for (const auto& [n, label] : labels_) {
      const taken_breath& t = *current().of(sample_number(n)).taken;
      if (t.closed != label.shown.wall || t.offset != label.shown.offset)
        return fmt::format("label {} has another time than it was told to show", n);
      const duration off = t.since_anchor - label.truly;
      if (!label.bounded && (off > 1s || off < -1s)) return fmt::format("tube {} is misplaced", n);
      if (label.bounded && (off > 1s || t.sure == certainty::exact))
        return fmt::format("tube {} is called surer than it is", n);
    }
    return "";
  }

  struct shown_label {
    clock_reading shown;
    duration truly{0};
    bool bounded{false};
  };

  row_keeper keeper_;
  std::optional<engine> engine_;
  instant start_;
  int told_{0};
  std::vector<duration> told_at_;
  std::optional<duration> anchor_; // true time of tube 1
  bool struck_{false};
  bool is_bounded_{false}; // the clocks cannot know the time since tube 1
  std::optional<std::pair<duration, duration>> set_right_; // when, by how much
  std::vector<std::string> confirmed_;
  std::map<int, shown_label> labels_;
  std::string wrong_;
};

} // namespace qb::test
