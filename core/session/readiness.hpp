// Every rule of the preparation against one start: what the record itself shows to be kept, what
// rests on the person's word, what is not kept, and what is still open.
// Asked at "start now", by the findings and so by the laboratory: no two of them can disagree.
#pragma once

#include "core/protocol/consequence.hpp"
#include "core/session/state.hpp"
#include "core/time/in_words.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline sessions {

// How a rule stands at a start.
enum class rule_standing {
  by_record,   // kept, and the program saw it
  on_word,     // kept as far as was told: nothing speaks against it
  below_asked, // less than is asked, no less than the least: it is told to the laboratory
  below_least, // less than the least: no start unless the laboratory agrees
  open,        // not answered, or somebody is still to be asked
};

// One rule with the figures and the events it rests on.
struct rule_check {
  std::string rule;
  std::string name; // a few words, the protocol's
  rule_standing standing{rule_standing::on_word};
  std::optional<duration> kept; // of what is asked, where it is a length
  duration asked{0};
  duration least{0};
  std::optional<duration> seen; // how much of that the program saw, where it saw some
  bool in_days{false};          // lengths are whole calendar days
  bool unanswered{false};       // open because nobody answered
  std::vector<std::int64_t> events;
  std::string words;               // what is known of it, in words that do not accuse
  std::optional<consequence> tell; // what a finding makes of it; none: nothing to tell
};

// How long before a window begins a press still is about this window ("I have finished eating"
// just before the fast).
inline constexpr std::chrono::hours confirms_from{2};

// One entry for every rule of the protocol that applies, in its order: age, kit, windows, washouts,
// cautions, morning questions. Empty while there is no plan. `now` is when it is asked, `start` the
// start it is asked about, `z` the zone of calendar days.
[[nodiscard]] std::vector<rule_check> readiness(const state& s, const clock_reading& now,
                                                instant start, const zone& z);

// The civil date of a start in the zone of its plan, wherever the device thinks it is; by `shown`
// where an older record does not say the zone's offset. Age and the kit's last day are held against
// it.
[[nodiscard]] civil_date day_of_start(const state& s, instant start, const zone& shown);

// The press that confirmed this window as it began, if there was one at its time: a list's item or
// a list of the rule's own name.
[[nodiscard]] const noted_list* confirmation_of(const state& s, const std::string& rule);

// What a rule is called: its name in the protocol, or its id where it has none.
[[nodiscard]] std::string name_of_rule(const protocol& p, const std::string& rule);

// Whether it counts as not kept: less than asked, or open.
[[nodiscard]] bool is_not_kept(const rule_check& c);
// Whether the test is not to start unless somebody agrees: under the least, or open.
[[nodiscard]] bool needs_agreement(const rule_check& c);

// The windows' part, used by `readiness`.
[[nodiscard]] rule_check window_check(const state& s, const planned_window& w,
                                      const clock_reading& now, instant start, const zone& z);

} // namespace qb::inline sessions
