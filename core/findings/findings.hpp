// What of a test was kept and what was not: one pure function that the gate, the finish screen, the
// sheet and the laboratory all ask, so that no two of them can disagree.
#pragma once

#include "core/protocol/consequence.hpp"
#include "core/session/state.hpp"
#include "core/time/in_words.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline findings {

// One thing a reader should know of, with the rule it rests on and the events that show it.
// `weight` is how weighty it is among those of its rule, a note or worth a review; what follows
// from it is data (core/findings/rules.hpp).
struct finding {
  std::string rule; // id of the protocol's or profile's rule, or of assets/findings
  consequence weight{consequence::note};
  std::optional<sample_number> sample; // the tube it is about, if one
  std::vector<std::int64_t> events;    // the events that show it
  std::vector<std::int64_t> figures;   // whole numbers of its sentence, in the order of its words
  std::string words;                   // the sentence, in words that do not accuse
};

// The findings of a test as it stands at `now` (for a finished record: its last reading). `z` is
// the zone in which times of day are worded.
[[nodiscard]] std::vector<finding> findings_of(const state& s, const clock_reading& now,
                                               const zone& z);

} // namespace qb::inline findings
