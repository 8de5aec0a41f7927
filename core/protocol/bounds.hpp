// When a sample counts as early, on time, late or missed, and the rule reference all numbers carry.
// Profiles have the bounds for every test; a protocol with another grid may bring its own.
#pragma once

#include <chrono>
#include <optional>
#include <string>

namespace qb::inline protocols {

// Why a number stands: the rule's id (a stable key that checks, findings and texts refer to) and
// the id of its source in the same file's list of sources.
struct rule_ref {
  std::string rule;
  std::string source;
};

// When a sample counts as what, all in elapsed seconds relative to its due time.
struct sample_bounds {
  std::chrono::seconds heads_up{0};  // before the due time: the screen says it is coming
  std::chrono::seconds early{0};     // up to this long before the due time a breath may begin
  std::chrono::seconds on_time{0};   // closed up to this long after is on time
  std::chrono::seconds last_call{0}; // after this the next sample comes first; the tube is missed
                                     // unless a breath is told afterwards
  std::chrono::seconds lead_in{0};   // from the press to the start tone, to put the straw in
  std::optional<std::chrono::seconds> last_call_last; // of the last tube; none: as any other
  std::optional<std::chrono::seconds> apart; // two closings nearer than this are asked about
};

} // namespace qb::inline protocols
