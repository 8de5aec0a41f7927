// Writing a record's files and reading them back.
#include "app/headless/export_record.hpp"

#include "app/headless/whose_file.hpp"
#include "app/platform/files.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb {

namespace {

// What tells our own files from others'.
struct ownership {
  const std::string& test_id;
  const std::vector<std::string>& ours; // known to be, though they cannot be read
};

// Whether a file may be replaced: none there, or one of our own test.
bool is_ours(const std::string& path, const ownership& own) {
  if (std::find(own.ours.begin(), own.ours.end(), path) != own.ours.end()) return true;
  const auto bytes = read_file(path);
  if (!bytes) return bytes.error().kind == refusal_kind::missing;
  return test_of_record(*bytes) == own.test_id;
}

// A log says whose all files of its name are. Without one each file must speak for itself.
bool is_free(const std::string& stem, const std::vector<outgoing_file>& files,
             const ownership& own) {
  if (read_file(stem + ".log.json")) return is_ours(stem + ".log.json", own);
  for (const outgoing_file& file : files)
    if (!is_ours(stem + file.ending, own)) return false;
  return true;
}

result<std::string> free_name(const std::string& folder, const std::string& wanted,
                              const std::vector<outgoing_file>& files, const ownership& own) {
  constexpr int most_tries = 100;
  for (int n = 1; n <= most_tries; ++n) {
    std::string name = n == 1 ? wanted : fmt::format("{}-{}", wanted, n);
    if (is_free(folder + "/" + name, files, own)) return name;
  }
  return tl::unexpected(refusal{refusal_kind::machine, folder, "", "many records of one kit number",
                                "a folder with room for another"});
}

} // namespace

std::string export_stem(const std::string& kit_number, bool rehearsal) {
  return (rehearsal ? "practice-quarterbreath-" : "quarterbreath-") + plain_kit_number(kit_number);
}

result<exported_files> export_record(const std::string& folder, const std::vector<event>& events,
                                     const export_options& o,
                                     const std::vector<std::string>& ours) {
  const state s = fold_events(events);
  const bool called_off = !s.earlier_plans.empty() && s.earlier_plans.back().called_off;
  if (!s.opening || !s.person || !s.last_reading || (!s.planned && !called_off))
    return tl::unexpected(refusal{refusal_kind::not_now, "", "export", "a test without a plan",
                                  "a test with a person and a plan"});
  const std::string wanted = export_stem(s.person->kit_number, s.rehearsal());
  const auto files = record_files(events, s, wanted, o);
  if (!files) return tl::unexpected(files.error());
  if (const auto made = make_folder(folder); !made) return tl::unexpected(made.error());
  const auto name = free_name(folder, wanted, *files, {s.opening->test_id, ours});
  if (!name) return tl::unexpected(name.error());
  exported_files out;
  out.why_unsigned = o.keys.why_unsigned;
  out.renamed = *name != wanted;
  for (const outgoing_file& file : *files) {
    const std::string path = folder + "/" + *name + file.ending;
    if (const auto done = write_and_read_back(path, file.bytes); !done)
      return tl::unexpected(done.error());
    out.paths.push_back(path);
  }
  return out;
}

} // namespace qb
