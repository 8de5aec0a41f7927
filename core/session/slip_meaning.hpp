// What a slip means under this protocol: which rule it touches, how much of that rule is kept, and
// from when a start would keep all of it.
// One answer for the screen that thanks for it, the check at the start and the laboratory.
#pragma once

#include "core/protocol/consequence.hpp"
#include "core/session/state.hpp"
#include "core/time/in_words.hpp"

#include <optional>
#include <string>

namespace qb::inline sessions {

// Rules a slip may carry that no protocol has: a medicine the protocol does not name, and anything
// else. What they mean is the laboratory's to say.
inline constexpr const char* slip_medicine = "medicine";
inline constexpr const char* slip_other = "other";

// The meaning of one slip, judged against one start. Figures are the protocol's.
struct slip_meaning {
  std::string rule; // the window or washout it touches; empty: none that the plan asks for
  instant start;    // the start it is judged against
  std::optional<duration> kept; // of `rule`: from the slip to that start or to the window's end
  duration asked{0};
  duration least{0};
  bool in_days{false};               // kept, asked and least are whole calendar days
  std::optional<consequence> weight; // none: nothing changes; note: tell the laboratory;
                                     // review: no start unless they agree
  std::optional<instant> full_from;  // the earliest start that would keep the rule in full, where
                                     // this one does not
};

// Judged against the start as it is to be: the plan's, or `now` where that is later, or tube 1's
// closing once it is closed. Only asked while there is a plan.
[[nodiscard]] slip_meaning meaning_of(const state& s, const reported_slip& told,
                                      const clock_reading& now, const zone& z);

// Judged against that start.
[[nodiscard]] slip_meaning meaning_at(const state& s, const reported_slip& told, instant start,
                                      const zone& z);

// What was told, for a reader: its subject's text, the rule's name, or "a medicine".
[[nodiscard]] std::string slip_in_words(const protocol& p, const reported_slip& told);

// A length as rules have it: "10 h", "11 h 20 min", or "20 days" where it is counted in days.
[[nodiscard]] std::string span_in_words(duration d, bool in_days);

// The first instant of that day in the zone.
[[nodiscard]] instant first_instant_of_day(civil_date date, const zone& z);

} // namespace qb::inline sessions
