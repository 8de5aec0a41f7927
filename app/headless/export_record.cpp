// Writing a record's files and reading them back.
#include "app/headless/export_record.hpp"

#include "app/page/attached_files.hpp"
#include "app/platform/files.hpp"
#include "core/base/json.hpp"
#include "core/record/log.hpp"

#include <fmt/core.h>

namespace qb {

namespace {

// The test whose log this is; empty for any other text.
std::string test_of_log(const std::string& text) {
  const auto there = read_log(text);
  if (!there) return {};
  const auto* opening = std::get_if<opened>(&there->events.front().what);
  return opening == nullptr ? std::string() : opening->test_id;
}

// The test whose log is attached to this PDF.
std::string test_of_sheet(const std::string& bytes) {
  const auto inside = attached_files(bytes, ".log.json", json::most_bytes);
  if (!inside || inside->empty()) return {};
  return test_of_log(inside->front().bytes);
}

// Whether a file may be replaced: none there, or one of our own test.
bool is_ours(const std::string& path, const std::string& test_id) {
  const auto bytes = read_file(path);
  if (!bytes) return bytes.error().kind == refusal_kind::missing;
  return looks_like_pdf(*bytes) ? test_of_sheet(*bytes) == test_id : test_of_log(*bytes) == test_id;
}

// A log says whose all files of its name are. Without one each file must speak for itself.
bool is_free(const std::string& stem, const std::vector<outgoing_file>& files,
             const std::string& test_id) {
  if (read_file(stem + ".log.json")) return is_ours(stem + ".log.json", test_id);
  for (const outgoing_file& file : files)
    if (!is_ours(stem + file.ending, test_id)) return false;
  return true;
}

result<std::string> free_name(const std::string& folder, const std::string& wanted,
                              const std::vector<outgoing_file>& files, const std::string& test_id) {
  constexpr int most_tries = 100;
  for (int n = 1; n <= most_tries; ++n) {
    std::string name = n == 1 ? wanted : fmt::format("{}-{}", wanted, n);
    if (is_free(folder + "/" + name, files, test_id)) return name;
  }
  return tl::unexpected(refusal{refusal_kind::machine, folder, "", "many records of one kit number",
                                "a folder with room for another"});
}

result<void> write_and_read_back(const std::string& path, const std::string& bytes) {
  if (auto written = write_file(path, bytes); !written) return written;
  const auto back = read_file(path);
  if (!back) return tl::unexpected(back.error());
  if (*back == bytes) return {};
  return tl::unexpected(refusal{refusal_kind::machine, path, "reading back", "other bytes",
                                "the bytes that were written"});
}

} // namespace

std::string export_stem(const std::string& kit_number, bool rehearsal) {
  return (rehearsal ? "practice-quarterbreath-" : "quarterbreath-") + plain_kit_number(kit_number);
}

result<exported_files> export_record(const std::string& folder, const std::vector<event>& events,
                                     const export_options& o) {
  const state s = fold_events(events);
  const bool called_off = !s.earlier_plans.empty() && s.earlier_plans.back().called_off;
  if (!s.opening || !s.person || !s.last_reading || (!s.planned && !called_off))
    return tl::unexpected(refusal{refusal_kind::not_now, "", "export", "a test without a plan",
                                  "a test with a person and a plan"});
  const std::string wanted = export_stem(s.person->kit_number, s.rehearsal());
  const auto files = record_files(events, s, wanted, o);
  if (!files) return tl::unexpected(files.error());
  if (const auto made = make_folder(folder); !made) return tl::unexpected(made.error());
  const auto name = free_name(folder, wanted, *files, s.opening->test_id);
  if (!name) return tl::unexpected(name.error());
  exported_files out;
  out.why_unsigned = o.keys.why_unsigned;
  for (const outgoing_file& file : *files) {
    const std::string path = folder + "/" + *name + file.ending;
    if (const auto done = write_and_read_back(path, file.bytes); !done)
      return tl::unexpected(done.error());
    out.paths.push_back(path);
  }
  return out;
}

} // namespace qb
