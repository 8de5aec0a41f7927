// What the signed comment beside a log says: which test, how much of it, and by which key.
//
//   quarterbreath kit:FV-2071 test:ID events:57 chain:HASH exported:INSTANT key:RW…
// "practice" stands after the first word for a rehearsal. The chain's last hash holds every event,
// and the first event holds the test's id; records of earlier versions name kit and chain alone.
#pragma once

#include "core/record/log.hpp"
#include "core/time/instant.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace qb::inline reports {

// A log as a signature can be about it.
struct signed_log {
  std::string_view bytes;
  std::string kit_number; // as the record tells it last
  std::string test_id;
  std::string head;
  std::size_t events{0};
  bool rehearsal{false};
};

// Of a log that was read from those bytes, which must outlive it.
[[nodiscard]] signed_log signed_log_of(std::string_view bytes, const read_log_result& log);

// The kit's number with every character outside letters, digits and hyphens left out; "kit" where
// nothing is left. A test's id likewise.
[[nodiscard]] std::string plain_number(const std::string& number);

// The comment of a log that is exported at that moment and signed by that key ("RW…").
[[nodiscard]] std::string signed_words(const signed_log& log, instant exported,
                                       const std::string& key);

// The word after `name` and a colon; empty where the comment has none.
[[nodiscard]] std::string signed_word(const std::string& comment, std::string_view name);

// What in the comment is of another log than this one, in words; nothing where all of it is of this
// one and kit and chain are named.
[[nodiscard]] std::optional<std::string> signed_for_another(const std::string& comment,
                                                            const signed_log& log);

} // namespace qb::inline reports
