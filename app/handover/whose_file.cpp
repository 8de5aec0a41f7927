// Groups of files by ending: one of each group says whose the group is.
#include "app/handover/whose_file.hpp"

#include "app/handover/file_endings.hpp"
#include "app/opened/attached_files.hpp"
#include "app/page/finished_pdf.hpp"
#include "core/base/json.hpp"
#include "core/record/log.hpp"
#include "core/sheet/calendar.hpp"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <set>
#include <string_view>

namespace qb::handover {

namespace {

namespace fs = std::filesystem;

std::string test_of_log(const std::string& text) {
  const auto there = read_log(text);
  if (!there) return {};
  const auto* opening = std::get_if<opened>(&there->events.front().what);
  return opening == nullptr ? std::string() : opening->test_id;
}

std::string test_of_sheet(const std::string& bytes, int& patience) {
  const auto inside = attached_files(bytes, ending::log, json::most_bytes);
  if (!inside && inside.error().kind == refusal_kind::out_of_range) --patience;
  if (!inside || inside->empty()) return {};
  return test_of_log(inside->front().bytes);
}

// The test of the log that these bytes are, or that is attached to them where they are a sheet;
// empty for any other bytes. Without patience no sheet is opened any more.
std::string test_of_record(const std::string& bytes, int& patience) {
  if (!looks_like_pdf(bytes)) return test_of_log(bytes);
  return patience > 0 ? test_of_sheet(bytes, patience) : std::string();
}

// Files that are written together: the first of them that is there says whose all are.
const std::vector<std::vector<std::string>>& groups() {
  static const std::vector<std::vector<std::string>> all{
      {ending::log, ending::sheet, ending::signature, ending::samples, ending::code,
       ending::sealed_sheet, ending::sealed_log},
      {ending::reminders, ending::preparation},
      {ending::labels},
      {ending::empty_sheet}};
  return all;
}

bool is_of(disk& device, const std::string& path, const std::string& test_id, int& patience) {
  constexpr std::size_t large = 256UL * 1024UL; // for a file of ours
  const auto bytes = device.read(path);
  if (!bytes || (bytes->size() > large && patience-- <= 0)) return false;
  return page::is_paper_of(*bytes, test_id) || is_calendar_of(*bytes, test_id) ||
         test_of_record(*bytes, patience) == test_id;
}

bool is_there(const std::string& path) {
  std::error_code none; // what cannot even be asked about is left alone
  return fs::exists(fs::symlink_status(path, none));
}

bool ends(const std::string& text, const std::string& tail) {
  return text.size() > tail.size() &&
         text.compare(text.size() - tail.size(), tail.size(), tail) == 0;
}

// The ending of the file that speaks first for that one's group: its own, where it is in none.
std::string speaker_of(const std::string& ending) {
  for (const auto& group : groups())
    if (std::find(group.begin(), group.end(), ending) != group.end()) return group.front();
  return ending;
}

// Adds the files of that group and stem, where the one that speaks for them is the test's.
void add_group(disk& device, const std::string& stem, const std::vector<std::string>& group,
               const std::string& test_id, std::vector<std::string>& out) {
  const auto there = [&](const std::string& ending) { return is_there(stem + ending); };
  const auto speaks = std::find_if(group.begin(), group.end(), there);
  int patience = 2; // with one file, however large
  if (speaks == group.end() || !is_of(device, stem + *speaks, test_id, patience)) return;
  for (auto ending = group.rbegin(); ending != group.rend(); ++ending)
    if (there(*ending)) out.push_back(stem + *ending);
}

// What is in a folder, as far as it can be listed: a drive may go away meanwhile.
std::vector<std::string> paths_in(const std::string& folder) {
  std::vector<std::string> out;
  std::error_code no;
  for (fs::directory_iterator at(folder, no); !no && at != fs::directory_iterator();
       at.increment(no))
    out.push_back(at->path().string());
  return out;
}

// The names in `folder` without that group's endings, each once.
std::set<std::string> stems_in(const std::string& folder, const std::vector<std::string>& group) {
  std::set<std::string> out;
  for (const std::string& path : paths_in(folder)) {
    for (const std::string& ending : group)
      if (ends(path, ending)) out.insert(path.substr(0, path.size() - ending.size()));
  }
  return out;
}

} // namespace

std::vector<std::string> files_of_test(disk& device, const std::string& folder,
                                       const std::string& test_id) {
  std::vector<std::string> out;
  for (const auto& group : groups())
    for (const std::string& stem : stems_in(folder, group))
      add_group(device, stem, group, test_id, out);
  return out;
}

bool may_write(disk& device, const std::string& stem, const std::vector<std::string>& endings,
               const std::string& test_id, const std::vector<std::string>& ours, int& patience) {
  const auto absent = [&](const std::string& path) {
    const auto there = device.read(path);
    return !there && there.error().kind == refusal_kind::missing;
  };
  const auto own = [&](const std::string& path) {
    return std::find(ours.begin(), ours.end(), path) != ours.end() ||
           is_of(device, path, test_id, patience);
  };
  return std::all_of(endings.begin(), endings.end(), [&](const std::string& ending) {
    const std::string speaks = stem + speaker_of(ending);
    if (!absent(speaks)) return own(speaks);
    return absent(stem + ending) || own(stem + ending);
  });
}

std::vector<std::string> unfinished_files(const std::string& folder) {
  constexpr std::string_view tail = ".new";
  std::vector<std::string> out;
  for (const std::string& path : paths_in(folder)) {
    if (!ends(path, std::string(tail))) continue;
    const auto dot = path.rfind('.', path.size() - tail.size() - 1);
    const std::string number = path.substr(dot + 1, path.size() - tail.size() - dot - 1);
    const auto digit = [](unsigned char c) { return std::isdigit(c) != 0; };
    if (!number.empty() && std::all_of(number.begin(), number.end(), digit)) out.push_back(path);
  }
  return out;
}

} // namespace qb::handover
