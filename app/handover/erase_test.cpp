// Journals emptied, then files removed.
#include "app/handover/erase_test.hpp"

#include "app/handover/whose_file.hpp"
#include "app/store/data_folders.hpp"

#include <algorithm>
#include <filesystem>

namespace qb::handover {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> all_journals(const std::string& folder) {
  std::vector<std::string> out;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(folder, none))
    if (entry.path().extension() == ".journal") out.push_back(entry.path().string());
  std::sort(out.begin(), out.end());
  return out;
}

} // namespace

result<void> remove_erased(disk& device, const std::string& data, const std::string& journal) {
  const std::string own = copies_folder(data);
  const std::string test_id = fs::path(journal).stem().string();
  std::vector<std::string> gone = files_of_test(device, own, test_id);
  for (std::string& left : unfinished_files(own))
    gone.push_back(std::move(left));
  // The journal goes last: as long as it is there, its mark says that something is still to do.
  gone.push_back(journal + "-journal");
  gone.push_back(journal);
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
    if (!open) return tl::unexpected(open.error());
    if (const auto erased = open->erase(); !erased) return erased;
  }
  return remove_erased(device, data, journal);
}

result<void> erase_practice(disk& device, const std::string& data) {
  for (const std::string& journal : journals_in(tests_folder(data, true))) {
    if (!journal_file::open(journal)) continue;
    if (const auto done = erase_closed_test(device, data, journal); !done) return done;
  }
  return {};
}

} // namespace qb::handover
