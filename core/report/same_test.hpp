// Two logs of one test: is one the other grown, or do they contradict each other?
// A record only ever grows by new events at its end; anything else is two different stories.
#pragma once

#include "core/findings/findings.hpp"
#include "core/record/log.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace qb::inline reports {

// What a newly read log is to the one that is kept.
enum class log_relation {
  same,        // the same events
  grown,       // all events of the kept one, and more
  older,       // the kept one has all its events, and more
  contradicts, // an event both have differs, or is claimed under another hash
};

// The first thing in which two logs contradict each other. What a person wrote is never in it: such
// a text is "words" in the one and "other words" in the other.
struct log_difference {
  std::int64_t seq{0}; // of the event, the same in both
  std::string kind;    // "symptoms"; "tube-closed or symptoms" where that is what differs
  std::string field;   // "data.scores.2.score", "kind", "hash"
  std::string kept;    // in the log that is kept
  std::string next;    // in the other
};

// "event 29 (symptoms), data.scores.2.score"
[[nodiscard]] std::string place_in_log(const log_difference& d);

// The relation, and where it breaks.
struct log_comparison {
  log_relation what{log_relation::same};
  std::int64_t seq{0};                   // contradicts: the first event that differs
  std::optional<log_difference> first{}; // contradicts: what of it
};

// Both must be of one test. Compares what the events say, and, where the events are the same, the
// hash each file claims for the last of them.
[[nodiscard]] log_comparison compare_logs(const read_log_result& kept, const read_log_result& next);

// What a log of the same test that was set aside leaves to say (rule `log-differs`); one that does
// not contradict the kept one leaves nothing.
[[nodiscard]] std::optional<finding> aside_finding(const read_log_result& kept,
                                                   const read_log_result& aside);

// The id of the test a log is of.
[[nodiscard]] const std::string& test_id_of(const read_log_result& log);

// Practice if either the log's head or its first event says so: a mark cannot be taken off by
// changing one of them.
[[nodiscard]] bool is_rehearsal(const read_log_result& log);

} // namespace qb::inline reports
