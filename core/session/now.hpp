// The one question a screen asks: what is to be done now, for which tube, until when, and when does
// this answer change? The same answer drives the window, the rehearsal and the laboratory's replay.
#pragma once

#include "core/session/state.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline sessions {

// The step the person is at, in the order of a whole test.
enum class step {
  who,         // person's details are wanted
  choose,      // a plan is wanted
  prepare,     // before the last hour: what holds, what comes next
  gate,        // the last hour or later: everything is checked before the sugar is opened
  held,        // before the drink: something stands against going on, and has a page of its own
  sugar,       // dissolve or open the sugar and set it aside
  symptoms,    // score how you feel, for `sample`
  red_flags,   // a score has risen markedly at `sample`: are there warning signs?
  wait,        // nothing to do until `sample` is due
  heads_up,    // `sample` is due very soon
  breathe,     // `sample` is due, or late, or is to be repeated: press to begin
  lead_in,     // pressed: put the straw in
  hold_breath, // hold it, where the protocol asks for that
  blowing,     // blow
  close,       // close the tube and say so
  unsure,      // a breath was begun, and the closing was not seen: was it taken?
  label,       // write label `sample`
  drink,       // drink the sugar now
  drinking,    // started: say when it is finished
  unwell,      // the person said they feel unwell
  rest,        // the tubes are done; the scores `after` them are still to come, or can be put off
  symptoms_after, // score how you feel, for `after`
  finish,         // the last sample is behind; what is recorded, what is missing, hand over
};

// The answer. Times left are elapsed, from the reading that was asked with.
struct now_answer {
  step what{step::who};
  std::optional<sample_number> sample;  // which tube the step is about
  std::optional<score_time> after;      // or which scores that belong to none; at finish: offered
  std::optional<duration> to_due;       // until that tube's due time, or that of those scores;
                                        // negative once it is past
  std::optional<duration> to_last_call; // until it counts as missed; until they are asked no longer
  std::optional<duration> phase_left;   // lead_in, hold_breath, blowing: what is left
  std::optional<duration> phase_length; // and how long it is in all
  std::vector<sample_number> missed;    // tubes that count as missed so far
  bool late{false};                     // the tube's time is past by more than is on time
  bool repeating{false};                // the breath is a repeat of a tube already closed
  bool drink_overdue{false};            // tube 1 is longer ago than the drink may wait
  certainty sure{certainty::exact};     // of the due times
  std::optional<hindrance> held_by;     // held: what it is
  std::vector<planned_window> holding;  // prepare, gate: windows that hold now
  std::optional<planned_window> next;   // prepare, gate: the next window to begin
  std::optional<duration> next_change;  // when this answer changes by itself; nothing if never
};

// The answer at that reading. Total: any state has one.
[[nodiscard]] now_answer what_now(const state& s, const clock_reading& now);

// The tube that is to be blown again, if one is. Only the latest can be, and tube 1 only before the
// drink; a wish that was overtaken stays in the record alone.
[[nodiscard]] std::optional<sample_number> wanted_repeat(const state& s);

// Whether that tube may be blown again at all: only the latest, and tube 1 only before the drink.
[[nodiscard]] bool may_repeat(const state& s, sample_number n);

// Whether there is time for it: another breath fits before the tube counts as missed and before the
// next is due. Before the drink, tube 1 has all the time: a repeat sets the grid anew.
[[nodiscard]] bool has_time_to_repeat(const state& s, sample_number n, const clock_reading& now);

// Whether that sample's scores call for the warning signs to be asked, and they have not been
// since: a rise above the first score, or a level, each the protocol's (the rise of a version 1
// protocol is the profile's). A score alone never says more than that they should be asked.
[[nodiscard]] bool asks_red_flags(const state& s, sample_number n);
// The same of scores that belong to no tube; all that was told of tubes came before them.
[[nodiscard]] bool asks_red_flags(const state& s, score_time t);
// Whether the scores given last call for them: asked before the next tube and before the drink.
[[nodiscard]] bool wants_signs_asked(const state& s);
// Whether the person feels unwell and has not said yet which of the warning signs are there, if
// any: asked before they may go on, never before the help that is shown.
[[nodiscard]] bool wants_signs_told(const state& s);

// The tube whose closing lies nearer to `closed` (since the anchor) than the bounds would have it,
// `n` itself left out; nothing where none does or the bounds do not say.
[[nodiscard]] std::optional<sample_number> too_close_to(const state& s, sample_number n,
                                                        duration closed);

// Whether a tube that was blown before its time is still to be blown at it.
[[nodiscard]] bool waits_for_its_time(const state& s, sample_number n, const clock_reading& now);

// Whether the person may go to the gate already: from the moment the fast has begun (any window
// that runs up to the start and is the longest of those).
[[nodiscard]] bool may_start_early(const state& s, const clock_reading& now);

// The ids that must be ticked at the gate before the sugar may be opened.
[[nodiscard]] const std::vector<std::string>& gate_checks();

} // namespace qb::inline sessions
