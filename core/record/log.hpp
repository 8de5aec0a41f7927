// The timing log: one JSON file a test, replayable by anyone with a JSON reader and SHA-256.
//
// Fields (the whole file is in the canonical form of RFC 8785: integers and ASCII keys only):
//   format     "quarterbreath-log"
//   version    3
//   program    name and version of the program that wrote the file
//   tzdata     the version of the zone data on the machine that wrote it ("2026f"), or ""
//   rehearsal  true for practice: never a patient's result
//   zone, rules, person, answers   the head for a reader in a hurry: core/record/log_header.hpp
//   events     every fact in order, each in the form described in codec.hpp, with its "hash"
//   head       the last event's hash, so that an event cut off at the end shows
//   summary    what the events add up to
// Head and summary are derived and must equal the replay. Version 1 had no tzdata, zone, rules,
// person and answers; version 2 had no packet, no scores that belong to no tube and fewer
// fields in cautions and unwell-over. Both are read for ever.
// Instants are RFC 3339 UTC; the zone stands beside them by its IANA name.
// To replay times: elapsed time adds up event by event, by boot_ms where two events share one boot,
// else by wall, never below zero. The anchor (elapsed 0) is the latest "tube-closed" of sample 1
// before "drink-started"; a "breath-told" lies before the event that tells it by as much as its
// "closed" lies before that event's wall. The last closing of a sample counts.
// To replay hashes: hash_0 is 64 zeros; hash_n = SHA-256(hash_(n-1) + "\n" + canonical event n
// without its "hash"); tube 1's closing is the anchor; sample n is due at the anchor plus the n-th
// offset of the protocol in the last "plan" event, in elapsed time.
#pragma once

#include "core/base/json.hpp"
#include "core/session/state.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline records {

inline constexpr int log_version = 3;
inline constexpr int first_version_with_header = 2;
inline constexpr const char* log_format = "quarterbreath-log";

// The file's text. The events must be those of one test from its first. `tzdata` is the version of
// the zone data, empty where the machine does not say.
[[nodiscard]] std::string write_log(const std::vector<event>& events, const std::string& program,
                                    const std::string& tzdata);

// What the events add up to, as the log carries it.
[[nodiscard]] json::value summary_of(const state& s);

// Why a log does not match its own record.
struct mismatch {
  enum class kind { event_hash, head, summary, header, rehearsal };
  kind what{kind::event_hash};
  std::int64_t seq{0}; // event_hash: the first event whose hash does not fit
};

// A log as it was read. A log that is well formed but was edited is read all the same, and says
// where; whoever shows it must show that.
struct read_log_result {
  int version{log_version}; // of the file
  std::string program;
  std::string tzdata; // empty where the file does not say
  bool rehearsal{false};
  std::vector<event> events;
  std::string head; // the last event's hash
  std::vector<mismatch> mismatches;
};

// Lifts every older version. Refuses what is not a log in good order (with line and field), a newer
// version in one line, and events that do not begin with an opening or are not numbered from 1
// without gaps.
[[nodiscard]] result<read_log_result> read_log(std::string_view text);

} // namespace qb::inline records
