// A damaged record read again: of the rows that were found, those that are proved by the chain of
// hashes, in their order, and a place kept for each that is lost.
//
// A row is whole where SHA-256 of the hash before it, a line end and its body is its hash. A hash
// that differs from that in few of its digits was itself what was damaged: no other body comes near
// it by chance. A body with one wrong byte is found by trying, since only the right one fits its
// hash. Behind a row that is lost, one that opened under the record's own key is whole too.
// Whatever is not proved by any of these is lost: nothing doubtful is taken for a fact.
#pragma once

#include "core/session/event.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline records {

// One row as it was found: its number where that is known, else 0.
struct found_row {
  std::int64_t number{0};
  std::string body;
  std::string hash;
  bool sealed{false}; // it was opened by the record's own key: nobody else wrote it

  friend bool operator==(const found_row& a, const found_row& b) = default;
};

// The events of a record, numbered from 1 without gaps: a lost one stands as `entry_lost`, and the
// last is `record_salvaged`. No events: nothing was proved.
struct salvaged_record {
  std::vector<event> events;
  int lost{0};
  bool found_any{false}; // a row was proved that is not one of those kept elsewhere alone
};

// `found` in any order, a row may stand in it more than once; `trusted` are rows that were kept
// elsewhere and checked there (key_rows). `sure_last`: the number of the last row, where the file
// is sound enough to say so. `ask_again` goes into the last event.
[[nodiscard]] salvaged_record salvage(const std::vector<found_row>& found,
                                      const std::vector<found_row>& trusted,
                                      std::optional<std::int64_t> sure_last,
                                      const std::vector<std::string>& ask_again);

// Whether no due time is known without it: what was opened and planned, tube 1, the drink, an end.
[[nodiscard]] bool is_key_event(const event& e);

// The rows of those; they are kept once more beside the record.
[[nodiscard]] std::vector<found_row> key_rows(const std::vector<event>& events);

// They as text and back: a first line that names the format, one line a row (its hash, a blank, its
// body), and a last one with the SHA-256 of all before it. Reading gives nothing where a byte of it
// is wrong.
[[nodiscard]] std::string key_rows_text(const std::vector<found_row>& rows);
[[nodiscard]] std::vector<found_row> read_key_rows(const std::string& text);

} // namespace qb::inline records
