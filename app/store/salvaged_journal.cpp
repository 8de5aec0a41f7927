// Read by our own reader, written by SQLite.
#include "app/store/salvaged_journal.hpp"

#include "app/machine/files.hpp"
#include "app/machine/pending_file.hpp"
#include "app/machine/regular_file.hpp"
#include "app/store/data_folders.hpp"
#include "app/store/found_rows.hpp"
#include "app/store/journal_keeper.hpp"
#include "app/store/journal_key.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/core.h>
#include <map>

namespace qb::inline store {

namespace {

namespace fs = std::filesystem;
using drafts = std::map<std::string, std::string>;

constexpr std::size_t largest_journal = 64U << 20U; // far beyond any test

refusal no_salvage(const std::string& path, const char* doing, std::string found) {
  return {refusal_kind::machine, path, doing, std::move(found), "a disk that can be written"};
}

drafts readable_drafts(const std::string& path) {
  const auto journal = journal_file::open(path);
  return journal ? journal->drafts().value_or(drafts{}) : drafts{};
}

result<void> write_journal(const std::string& path, const std::vector<event>& events,
                           const drafts& typed) {
  auto made = open_journal(path);
  if (!made) return tl::unexpected(made.error());
  if (const auto kept = made->keeper.append(events); !kept) return tl::unexpected(kept.error());
  for (const auto& [key, value] : typed) {
    if (const auto kept = made->keeper.journal().keep_draft(key, value); !kept) return kept;
  }
  return {};
}

bool is_free(const std::string& path) {
  std::error_code none;
  return !fs::exists(fs::symlink_status(path, none));
}

// The first name that is free to set the damaged journal aside, and its key's copies where they
// are damaged too.
result<std::string> free_name(const std::string& path, bool with_key) {
  constexpr int most = 100;
  for (int n = 1; n <= most; ++n) {
    std::string aside = fmt::format("{}.damaged-{}", path.substr(0, path.rfind('.')), n);
    const bool keys_free = std::all_of(journal_key_endings.begin(), journal_key_endings.end(),
                                       [&](const char* end) { return is_free(aside + end); });
    if (is_free(aside) && (!with_key || keys_free)) return aside;
  }
  return tl::unexpected(no_salvage(path, "setting it aside", "too many damaged ones"));
}

// A second name of the same file, so that nothing is written twice; where a file system knows no
// such thing, a copy.
result<void> set_aside(const std::string& path, const std::string& aside) {
  std::error_code why;
  fs::create_hard_link(path, aside, why);
  if (why) fs::copy_file(path, aside, why);
  if (why) return tl::unexpected(no_salvage(path, "setting it aside", why.message()));
  return {};
}

} // namespace

salvaged_record read_damaged(const std::string& path, const std::vector<std::string>& ask_again) {
  const auto bytes = read_regular_file(path, largest_journal);
  const auto kept_twice = read_regular_file(key_rows_path(path), largest_journal);
  return salvage(bytes ? rows_in_bytes(*bytes, find_journal_key(path).key)
                       : std::vector<found_row>{},
                 kept_twice ? read_key_rows(*kept_twice) : std::vector<found_row>{},
                 bytes ? last_of_sound_journal(path) : std::nullopt, ask_again);
}

result<std::string> replace_damaged(const std::string& path, const std::vector<event>& events) {
  const found_key key = find_journal_key(path);
  if (key.unread) return tl::unexpected(*key.unread);
  auto aside = free_name(path, !key.key);
  if (!aside) return aside;
  auto fresh = pending_file::beside(path);
  if (!fresh) return tl::unexpected(fresh.error());
  const drafts typed = readable_drafts(path);
  // The new journal has the damaged one's key, so that both can be read. Where none of its copies
  // is whole they go with the damaged one, and a new key is drawn. A kill from here on leaves the
  // damaged journal with a key that opens nothing of it: it is salvaged again.
  if (!key.key)
    if (const auto moved = set_journal_key_aside(path, *aside); !moved)
      return tl::unexpected(moved.error());
  const auto written = write_journal(fresh->temporary(), events, typed);
  std::error_code none;
  (void)remove_file(fresh->temporary() + "-journal"); // what it was for is done
  if (!written) return tl::unexpected(written.error());
  if (const auto synced = fresh->sync(); !synced) return tl::unexpected(synced.error());
  if (const auto kept = set_aside(path, *aside); !kept) return tl::unexpected(kept.error());
  // An unfinished write of the damaged file must never be rolled back into the new one.
  fs::rename(path + "-journal", *aside + "-journal", none);
  if (const auto put = fresh->put(in_its_place::replaced); !put) return tl::unexpected(put.error());
  if (const auto synced = fresh->sync_name(); !synced) return tl::unexpected(synced.error());
  return aside;
}

} // namespace qb::inline store
