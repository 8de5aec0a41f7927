// A test's result in a few bytes, as the codes on sheet and screen carry it: version 1, or version
// 2 where scores were given that belong to no tube.
//
// No name, no birth date, no answers to questions: kit number, times, scores, drink, flags. All
// numbers are whole. A *count* is written seven bits a byte, lowest first, the highest bit set in
// all bytes but the last. A *number* is the count 2n where n >= 0, else the count -2n - 1. A *text*
// is its length in bytes as a count, then UTF-8. Byte by byte:
//   1 byte    version: 1 or 2
//   1 byte    form: bit 0 practice; the others 0
//   text      kit number (1 to 64 bytes)
//   text      the protocol's id (1 to 64 bytes)
//   4 bytes   the first of the SHA-256 of the protocol's canonical JSON, as frozen in the record
//   text      the test's id; where it is 16 hexadecimal digits in lower case: the count 0, then
//             those digits as 8 bytes
//   count     how many events the record had when the code was made
//   8 bytes   the last of that event's hash (the log's chain)
//   count     time zero, seconds after 1970-01-01T00:00:00Z: tube 1 closed, or, with the flag
//             drink-first, the start of the drink
//   number    local time minus UTC then, in seconds
//   count     flags: bit n is flag n of flags.hpp
//   1 byte    drink: bit 0 a start is known, bit 1 an end is known, bit 2 all of it was drunk,
//             bits 3-4 how the start is known (0 observed, 1 told, 2 estimated), bits 5-6 what was
//             kept of it (0 all, 1 more than half, 2 less than half, 3 none), bit 7: 0
//   number    if bit 0: the start, seconds after time zero
//   number    if bit 1: the end, seconds after time zero
//   count     how many symptoms a sample has, at most 15
//   count     how many samples, at most 24; for each, in the order of their numbers:
//     1 byte  bits 0-1 taken (0 not, 1 observed, 2 told, 3 estimated), bit 2 closed more than once,
//             bit 3 to be blown again and was not, bit 4 corrected later, bit 5 an elapsed time
//             follows, bit 6 an offset follows, bit 7 scores follow
//     number  if taken: closed, by the clock on the wall: seconds after time zero
//     number  if bit 5: closed, as time really passed: seconds after time zero; without it within a
//             second of the same (bit 5 is set only where the clock was set in between)
//     number  if bit 6: local time minus UTC then; without it the one above
//     bytes   if bit 7: scores in half bytes, upper half first: 0 to 10, or 15 where skipped; an
//             unused last half is 15
//   in version 2: count, how many scores belong to no tube, 1 or 2; for each, in this order:
//     1 byte  bit 0: 0 after the last tube, 1 later the same day; bit 1 corrected later
//     number  when they were given, as time really passed: seconds after time zero
//     bytes   scores as above
//   1 byte    seal: 0 none, and the end; or 1:
//   8 bytes   the key's id, as the log's signature has it
//   64 bytes  Ed25519 signature (RFC 8032) of "quarterbreath code 1\n" and all bytes before it
// Instants are cut to whole seconds, so that the minute is the one on the label. That no byte was
// changed is seen by the codes' own checks (code_text.hpp), with or without a seal.
#pragma once

#include "core/session/event.hpp"
#include "core/session/limits.hpp"

#include <array>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace qb::code {

// Kit number and ids a code has room for, in bytes, and the symptoms that four bits count.
inline constexpr std::size_t most_code_text = most_kit_number;
inline constexpr std::size_t most_code_symptoms = 15;

inline constexpr unsigned packed_version = 2; // the newest that is read

// One sample and its tube.
struct packed_sample {
  std::optional<how_known> taken;  // how its closing is known; nothing where it was not taken
  bool repeated{false};            // closed more than once; the last counts
  bool again{false};               // to be blown again, and was not
  bool corrected{false};           // by a later event
  std::chrono::seconds closed{0};  // after time zero by the wall clock; 0 where it was not taken
  std::chrono::seconds elapsed{0}; // the same as time really passed
  std::chrono::seconds offset{0};  // local time minus UTC then
  std::vector<std::optional<int>> scores; // in the protocol's order; empty where none were asked
};

// Scores that belong to no tube and were given.
struct packed_after {
  score_time what{score_time::after_last};
  bool corrected{false};                  // by a later event
  std::chrono::seconds elapsed{0};        // after time zero, as time really passed
  std::vector<std::optional<int>> scores; // in the protocol's order
};

// The drink, its times in seconds after time zero.
struct packed_drink {
  std::optional<std::chrono::seconds> start; // after time zero
  std::optional<std::chrono::seconds> end;
  how_known start_how{how_known::observed};
  bool all_of_it{true};
  drink_part kept{drink_part::all}; // in the end
};

// A signature and whose it is.
struct packed_seal {
  std::array<unsigned char, 8> key_id{};
  std::array<unsigned char, 64> signature{};
};

// The whole of it. Texts are limited as the form above says.
struct packed_result {
  bool rehearsal{false};
  std::string kit_number;
  std::string protocol_id;
  std::string protocol_digest; // 4 bytes
  std::string test_id;
  std::uint64_t events{0};
  std::string head_tail;          // 8 bytes
  instant zero;                   // in whole seconds
  std::chrono::seconds offset{0}; // local time minus UTC then
  std::set<std::string> flags;
  packed_drink drink;
  std::size_t symptoms{0};
  std::vector<packed_sample> samples;
  std::vector<packed_after> after; // in their order; none: version 1
  std::optional<packed_seal> seal;
};

// The bytes without a seal: what is signed, but for its first line and the seal's own first bytes.
[[nodiscard]] std::string pack(const packed_result& r);

// The text a signature is made of, for bytes of `pack` and that key.
[[nodiscard]] std::string to_be_signed(std::string_view packed,
                                       const std::array<unsigned char, 8>& key_id);

// The whole: `pack` and its seal, or the mark that there is none.
[[nodiscard]] std::string with_seal(std::string_view packed, const std::optional<packed_seal>& s);

// Refuses what is not exactly in the form above, and a newer version in one line. Whether the
// signature is right is the caller's to check, who may have the key: of `to_be_signed` again.
[[nodiscard]] result<packed_result> unpack(std::string_view bytes);

} // namespace qb::code
