// The key of one test's journal, and the first thing that goes when the test is erased: without it
// what is left of the journal on a disk is noise.
//
// Two copies lie beside the journal, TEST.key-1 and TEST.key-2, mode 0600, each of three lines:
// "quarterbreath-journal-key 1", 32 bytes in hexadecimal, and the SHA-256 of the first two with
// their line ends. A copy that was read and is damaged, or is missing, is written again from the
// other when the journal is opened. One that cannot be read now (a disk's error, somebody else's
// file, a link, a pipe, a folder) may be whole tomorrow: nothing here writes over it but destroying
// it, and where it is the last one nothing is made in its place. A copy whose key is all zeros says
// that the key was destroyed, and with it the test. Both are on the disk before the journal's first
// row is.
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
// The paths of both copies, whether they are there or not.
[[nodiscard]] std::array<std::string, 2> journal_key_paths(const std::string& journal);

// What the copies say.
struct found_key {
  std::optional<journal_secret> key;
  bool destroyed{false};
  bool damaged{false};           // one was read, and is none
  std::optional<refusal> unread; // no copy is whole, and this one cannot be read now
};
// Changes nothing, and waits for nothing that is no regular file.
[[nodiscard]] found_key find_journal_key(const std::string& journal);

// Of a sealed journal; a damaged or missing copy is mended where the disk lets it. Refuses as
// `malformed` where both were read and neither is whole, as `not_now` where it was destroyed, and
// by the copy's own name where one cannot be read now and the other is not whole.
[[nodiscard]] result<journal_secret> open_journal_key(const std::string& journal);

// For a journal that is to be made: draws a key where no copy is, and keeps both copies. Refuses as
// `open_journal_key` does: a damaged copy is not written over either, since it may be all that is
// left of another journal's key.
[[nodiscard]] result<void> make_journal_key(const std::string& journal);

// Gives copies that are damaged other names, `aside` with their endings, so that the journal that
// is set aside under `aside` can be read once they are mended by hand.
[[nodiscard]] result<void> set_journal_key_aside(const std::string& journal,
                                                 const std::string& aside);

// Overwrites both copies where they lie, damaged ones too, and syncs them. Refuses where one of
// them cannot be written; then nothing was changed. Of a journal without a key it does nothing.
[[nodiscard]] result<void> destroy_journal_key(const std::string& journal);

// Whether a file of that name holds a key, or a part of one: a copy, one set aside, one that was
// being written.
[[nodiscard]] bool is_key_file(const std::string& path);

} // namespace qb::inline store
