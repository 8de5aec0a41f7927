// What stands at the head of a timing log for a reader who will not replay it: the zone, the rules
// by name and hash, who the label is for, and the latest answer to each question.
// All of it follows from the events; a log whose header says something else is marked.
#pragma once

#include "core/base/json.hpp"
#include "core/session/event.hpp"

#include <vector>

namespace qb {

// Members, each derived from the events:
//   zone     the IANA name of the last plan's zone, else of the first event's clocks
//   rules    {"profile": {"id", "sha256"}, "protocol": the same, or null before a plan}: the
//            laboratory's profile as opened, the last plan's protocol; sha256 of the canonical form
//            (RFC 8785) in which they stand in the events
//   person   the last "person" event's data without the laboratory's name, or null
//   answers  {"cautions", "washouts", "slips": lists of events' data; "ready": one, or null}; of
//            cautions and washouts the latest of each rule, in the order first asked
[[nodiscard]] json::object header_of(const std::vector<event>& events);

} // namespace qb
