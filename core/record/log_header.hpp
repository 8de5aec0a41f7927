// What stands at the head of a timing log for a reader who will not replay it: the zone, the rules
// by name and hash, who the label is for, and the latest answer to each question.
// All of it follows from the events; a log whose header says something else is marked.
#pragma once

#include "core/base/json.hpp"
#include "core/record/frozen_rules.hpp"
#include "core/session/event.hpp"

#include <vector>

namespace qb::inline records {

// The events that stand in the header: the last of each kind, where there is one; of cautions and
// washouts the last of each rule, in the order first asked; and all slips.
struct header_events {
  const event* opening{nullptr};
  const event* plan{nullptr};
  const event* person{nullptr};
  const event* ready{nullptr};
  std::vector<const event*> cautions;
  std::vector<const event*> washouts;
  std::vector<const event*> slips;
};
[[nodiscard]] header_events header_events_of(const std::vector<event>& events);

// The name of the zone in the header of those events, which must be some.
[[nodiscard]] const std::string& header_zone(const std::vector<event>& events,
                                             const header_events& in);
// "rules" of the header.
[[nodiscard]] json::value header_rules(const header_events& in, frozen_rules& known);
// The field of "person" that is left out of the header.
inline constexpr const char* not_in_header = "laboratory";

// Members, each derived from the events:
//   zone     the IANA name of the last plan's zone, else of the first event's clocks
//   rules    {"profile": {"id", "sha256"}, "protocol": the same, or null before a plan}: the
//            laboratory's profile as opened, the last plan's protocol; sha256 of the canonical form
//            (RFC 8785) in which they stand in the events
//   person   the last "person" event's data without the laboratory's name, or null
//   answers  {"cautions", "washouts", "slips": lists of events' data; "ready": one, or null}; of
//            cautions and washouts the latest of each rule, in the order first asked
[[nodiscard]] json::object header_of(const std::vector<event>& events);

} // namespace qb::inline records
