// The key of one test's journal, and the first thing that goes when the test is erased: without it
// what is left of the journal on a disk is noise.
//
// Two copies lie beside the journal, TEST.key-1 and TEST.key-2, mode 0600, each of three lines:
// "quarterbreath-journal-key 1", 32 bytes in hexadecimal, and the SHA-256 of the first two with
// their line ends. A copy that is damaged or missing is written again from the other when the
// journal is opened. A copy whose key is all zeros says that the key was destroyed, and with it the
// test. Both are on the disk before the journal's first row is.
//
// It lies beside what it opens: whoever takes the whole device before a test is erased reads it.
#pragma once

#include "app/store/sealed_rows.hpp"
#include "core/base/result.hpp"

#include <array>
#include <optional>
#include <string>

namespace qb::inline store {

inline constexpr std::array<const char*, 2> journal_key_endings{".key-1", ".key-2"};
[[nodiscard]] std::array<std::string, 2> journal_key_paths(const std::string& journal);

// What the copies say; changes nothing.
struct found_key {
  std::optional<journal_secret> key;
  bool destroyed{false};
};
[[nodiscard]] found_key find_journal_key(const std::string& journal);

// Of a sealed journal; a damaged copy is mended where the disk lets it. Refuses as `malformed`
// where neither copy can be read, as `not_now` where it was destroyed.
[[nodiscard]] result<journal_secret> open_journal_key(const std::string& journal);

// For a journal that is to be made: draws a key where none is, and keeps both copies.
[[nodiscard]] result<void> make_journal_key(const std::string& journal);

// Overwrites both copies where they lie, and syncs them. Refuses where the first cannot be; then
// nothing was changed. Of a journal without a key it does nothing.
[[nodiscard]] result<void> destroy_journal_key(const std::string& journal);

} // namespace qb::inline store
