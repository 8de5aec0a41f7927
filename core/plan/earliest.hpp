// The earliest start that leaves room for the whole preparation and for the person's life, and the
// rule that binds it. Asked by the plan screen, so that nobody is left to do arithmetic on dates.
// It computes with intervals of time (core/plan/intervals.hpp); it never steps through minutes.
#pragma once

#include "core/plan/plan.hpp"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace qb::inline plans {

// What a person told of one washout.
enum class washout_answer {
  never,       // not in the time that matters
  last_on,     // the last one was, or will be, on that day
  until,       // still taking it, the last dose will be on that day
  cannot_stop, // it goes on
  unknown,     // does not know
};

// As files and scripts have it: "never", "last-on", "until", "cannot-stop", "unknown".
[[nodiscard]] const char* washout_key(washout_answer a);

// What was told of one washout; of several about the same rule the latest day counts.
struct answered_washout {
  std::string rule; // a washout's rule id
  washout_answer answer{washout_answer::never};
  std::optional<civil_date> on; // with last_on and until
  bool agreed{false};           // somebody who may say so said to go on in spite of it

  friend bool operator==(const answered_washout& a, const answered_washout& b) = default;
};

// The last time of something that a window is about: what the window does not allow was done at
// that moment and not since. Each window has its own: for the fast the last meal or drink that was
// not water, for the plain diet the last food that did not fit it, for waking the waking itself. So
// a plain supper is told of the fast and says nothing about the plain diet.
struct reported_moment {
  std::string rule; // a window's rule id
  instant last;     // may lie ahead: supper will be at seven
};

// Hours of a day in minutes since its midnight, civil; `to` may be 1440 and is not part of it.
// Where `to` is not after `from`, they go on over midnight into the next day.
struct day_hours {
  std::chrono::minutes from{0};
  std::chrono::minutes to{0};
};

// Weekdays (1 Monday to 7 Sunday) with the hours the person can be at home on them.
struct home_hours {
  std::set<int> weekdays;
  day_hours hours;
};

// All that was told and that bears on when the test can be.
struct circumstances {
  std::vector<answered_washout> washouts;
  std::vector<reported_moment> moments;
  std::vector<home_hours> home;          // empty: always; the weekday is the one they begin on
  std::vector<civil_date> away;          // whole days away from home
  std::optional<day_hours> awake;        // none: at any hour
  std::optional<civil_date> kit_expires; // the last day the kit may be used
  // What was answered to the protocol's questions, by rule id: "no", "yes" or "unsure"; and the
  // birth date. They move no start: whether there may be a plan at all is session's to judge.
  std::map<std::string, std::string> answers;
  std::optional<civil_date> birth_date;
};

// Rules of the answer that no protocol has. `rule_now`: a start cannot lie in the past; it binds
// only where the whole preparation is told as kept already.
inline constexpr const char* rule_now = "now";
inline constexpr const char* rule_home = "home";
inline constexpr const char* rule_awake_hours = "awake-hours";
inline constexpr const char* rule_kit_expiry = "kit-expiry";

// How far ahead of the first start that the preparation allows home and waking hours are looked at.
// They come again each week, so a year with a margin is as good as for ever.
inline constexpr std::chrono::days search_horizon{400};

// The answer: a start and what binds it; or none, and why.
struct earliest_start {
  std::optional<instant> at;
  std::string binding_rule; // the rule without which an earlier start would work; where there is
                            // no start, the rule that leaves none
  std::vector<std::string> ask; // rules of which somebody must be asked first; not empty: no start
  std::optional<civil_date> post_on_or_before; // of that start
};

// The earliest start, from `now` on, that keeps every rule:
// - windows: one of which nothing was told lies wholly ahead (start >= now + from); one with told
//   moments may have begun at the latest of them (start >= moment + from). A moment says that the
//   window's beginning was kept, so it counts also where the window ends before the start;
// - washouts, in full: the day of `on` plus the protocol's days is the first that is free, from
//   where clocks show no earlier day any more. Never, or agreed: no bound. Cannot stop, not known,
//   or a day that is missing: somebody must be asked, and there is no start until then;
// - home: at every instant from the first sample to the last, clocks show home hours of a day that
//   is not away; hours that touch at midnight are one stretch;
// - awake: clocks show waking hours at every instant from the start of the window "awake" (from the
//   start itself where the protocol has none) to the last sample;
// - the kit: the last sample is before the first instant of the day after its last.
// Told rules that the protocol does not have are left aside. Home and waking hours are looked at
// for `search_horizon` from the first start that windows and washouts allow.
//
// What binds: where home or waking hours move the start on, the one of them without which the
// moment before would do; where it would not do for either, the one without which any earlier start
// would, or else home. Where they do not, the window or washout that asks latest, the first of the
// protocol where several do. Without a start: the first rule that must be asked about; else the one
// of expiry, home, waking hours without which there would be a start.
[[nodiscard]] earliest_start find_earliest(const protocol& p, const circumstances& c, instant now,
                                           const zone& z);

// One rule that a start breaks.
struct broken_rule {
  std::string rule;
  // How much later the start would have to be for this rule alone; none: no later start helps
  // (expiry, no home hours within the horizon), or somebody must be asked.
  std::optional<duration> later_by;
};

// Every rule that `start` breaks, each once: a start in the past, then in the protocol's order,
// then home, waking hours and expiry; empty where the start keeps all that `find_earliest` asks.
[[nodiscard]] std::vector<broken_rule> rules_broken(const protocol& p, const circumstances& c,
                                                    instant start, instant now, const zone& z);

} // namespace qb::inline plans
