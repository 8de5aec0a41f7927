// Two logs of one test: is one the other grown, or do they contradict each other?
// A record only ever grows by new events at its end; anything else is two different stories.
#pragma once

#include "core/record/log.hpp"

#include <cstdint>
#include <string>

namespace qb {

// What a newly read log is to the one that is kept.
enum class log_relation {
  same,        // the same events
  grown,       // all events of the kept one, and more
  older,       // the kept one has all its events, and more
  contradicts, // an event both have differs, or is claimed under another hash
};

// The relation, and where it breaks.
struct log_comparison {
  log_relation what{log_relation::same};
  std::int64_t seq{0}; // contradicts: the first event that differs
};

// Both must be of one test. Compares what the events say, and, where the events are the same, the
// hash each file claims for the last of them.
[[nodiscard]] log_comparison compare_logs(const read_log_result& kept, const read_log_result& next);

// The id of the test a log is of.
[[nodiscard]] const std::string& test_id_of(const read_log_result& log);

// Practice if either the log's head or its first event says so: a mark cannot be taken off by
// changing one of them.
[[nodiscard]] bool is_rehearsal(const read_log_result& log);

} // namespace qb
