// The index, and the records where it says nothing.
#include "app/store/running_index.hpp"

#include "app/machine/regular_file.hpp"
#include "app/store/data_folders.hpp"
#include "app/store/salvaged_journal.hpp"
#include "core/record/codec.hpp"

#include <algorithm>

namespace qb::inline store {

namespace {

constexpr const char* format_line = "quarterbreath-running 1\n";
constexpr std::size_t largest_index = 4096;

std::string index_text(const std::string& test_id) {
  const std::string lines = format_line + test_id + "\n";
  return lines + sha256_hex(lines) + "\n";
}

std::optional<std::string> named_by_index(const std::string& folder,
                                          const std::vector<std::string>& journals) {
  const auto text = read_regular_file(running_index_path(folder), largest_index);
  if (!text) return std::nullopt;
  for (const std::string& journal : journals) {
    const std::string name = journal.substr(journal.rfind('/') + 1);
    if (*text == index_text(name.substr(0, name.rfind('.')))) return journal;
  }
  return std::nullopt;
}

} // namespace

std::string running_index_path(const std::string& folder) {
  return folder + "/running";
}

result<void> note_running(disk& device, const std::string& folder, const std::string& test_id) {
  return device.write(running_index_path(folder), index_text(test_id));
}

std::optional<std::string> running_journal(const std::string& folder,
                                           const std::vector<std::string>& journals) {
  if (auto named = named_by_index(folder, journals)) return named;
  std::optional<std::string> latest;
  instant when;
  for (const std::string& journal : journals) {
    const salvaged_record r = read_damaged(journal, {});
    if (r.events.empty() || (latest && r.events.back().at.wall <= when)) continue;
    latest = journal;
    when = r.events.back().at.wall;
  }
  return latest;
}

} // namespace qb::inline store
