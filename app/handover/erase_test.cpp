// Journals emptied, then files removed.
#include "app/handover/erase_test.hpp"

#include "app/handover/whose_file.hpp"
#include "app/machine/regular_file.hpp"
#include "app/store/data_folders.hpp"
#include "app/store/journal_key.hpp"

#include <algorithm>
#include <filesystem>

namespace qb::handover {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> files_of_ending(const std::string& folder, const char* ending) {
  std::vector<std::string> out;
  std::error_code none;
  // A pipe or a folder of such a name is no journal, and reading it might never end.
  for (const auto& entry : fs::directory_iterator(folder, none))
    if (entry.path().extension() == ending && is_regular_file(entry.path().string()))
      out.push_back(entry.path().string());
  std::sort(out.begin(), out.end());
  return out;
}

std::vector<std::string> all_journals(const std::string& folder) {
  return files_of_ending(folder, ".journal");
}

// Destroyed keys whose journal is gone: a kill came between the two.
std::vector<std::string> keys_left_in(const std::string& folder) {
  std::vector<std::string> out;
  for (const char* ending : journal_key_endings) {
    for (std::string& key : files_of_ending(folder, ending)) {
      const std::string journal = journal_stem(key) + ".journal";
      if (!is_regular_file(journal) && find_journal_key(journal).destroyed)
        out.push_back(std::move(key));
    }
  }
  return out;
}

// What bears the test's name beside its journal: SQLite's, the rows kept twice, damaged ones that
// were set aside, and what a kill left of writing them.
std::vector<std::string> files_beside(const std::string& journal) {
  const std::string stem = fs::path(journal).stem().string() + ".";
  std::vector<std::string> out;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(fs::path(journal).parent_path(), none)) {
    const std::string path = entry.path().string();
    const bool bears_it = entry.path().filename().string().rfind(stem, 0) == 0;
    if (bears_it && path != journal && is_regular_file(path)) out.push_back(path);
  }
  std::sort(out.begin(), out.end());
  return out;
}

} // namespace

result<void> remove_erased(disk& device, const std::string& data, const std::string& journal) {
  const std::string own = copies_folder(data);
  const std::string test_id = fs::path(journal).stem().string();
  const auto keys = journal_key_paths(journal);
  std::vector<std::string> gone = files_beside(journal);
  gone.erase(std::remove_if(gone.begin(), gone.end(),
                            [&](const std::string& path) {
                              return std::find(keys.begin(), keys.end(), path) != keys.end();
                            }),
             gone.end());
  // What else holds a part of a key goes first: one set aside, one that a kill left unfinished.
  std::stable_partition(gone.begin(), gone.end(), is_key_file);
  for (std::string& copy : files_of_test(device, own, test_id))
    gone.push_back(std::move(copy));
  for (std::string& left : unfinished_files(own))
    gone.push_back(std::move(left));
  // The journal goes last, and behind it what is left of its key: as long as the one is there, a
  // mark in it or in the other says that something is still to do.
  gone.push_back(journal);
  gone.insert(gone.end(), keys.begin(), keys.end());
  for (const std::string& path : gone)
    if (const auto removed = device.remove(path); !removed) return removed;
  return {};
}

result<void> finish_erasing(disk& device, const std::string& data) {
  for (const bool practice : {false, true}) {
    for (const std::string& journal : all_journals(tests_folder(data, practice))) {
      if (!is_erased_journal(journal)) continue;
      if (const auto done = remove_erased(device, data, journal); !done) return done;
    }
    for (const std::string& key : keys_left_in(tests_folder(data, practice)))
      if (const auto gone = device.remove(key); !gone) return gone;
  }
  return {};
}

std::vector<std::string> journals_in(const std::string& folder) {
  std::vector<std::string> out = all_journals(folder);
  out.erase(std::remove_if(out.begin(), out.end(), is_erased_journal), out.end());
  return out;
}

result<void> erase_closed_test(disk& device, const std::string& data, const std::string& journal) {
  {
    auto open = journal_file::open(journal);
    if (!open && is_held_elsewhere(open.error())) return tl::unexpected(open.error());
    // A damaged one has no mark to set but its key's: its file goes, and is overwritten.
    const auto erased = open ? open->erase() : destroy_journal_key(journal);
    if (!erased) return erased;
  }
  return remove_erased(device, data, journal);
}

result<void> erase_practice(disk& device, const std::string& data) {
  for (const std::string& journal : journals_in(tests_folder(data, true))) {
    const auto done = erase_closed_test(device, data, journal);
    if (!done && is_held_elsewhere(done.error())) continue;
    if (!done) return done;
  }
  return {};
}

} // namespace qb::handover
