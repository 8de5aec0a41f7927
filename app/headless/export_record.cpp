// Writing a record's files and reading them back.
#include "app/headless/export_record.hpp"

#include "app/page/record_pdf.hpp"
#include "app/platform/files.hpp"
#include "core/record/log.hpp"
#include "core/sheet/sheet.hpp"

#include <cctype>
#include <fmt/core.h>

namespace qb {

namespace {

struct outgoing {
  std::string ending;
  std::string bytes;
};

// A log that is already there is ours when it is of the same test; any other file is not.
bool is_ours(const std::string& path, const std::string& test_id) {
  const auto bytes = read_file(path);
  if (!bytes) return bytes.error().kind == refusal_kind::missing;
  const auto there = read_log(*bytes);
  if (!there) return false;
  const auto* opening = std::get_if<opened>(&there->events.front().what);
  return opening != nullptr && opening->test_id == test_id;
}

result<std::string> free_stem(const std::string& folder, const std::string& wanted,
                              const std::string& test_id) {
  constexpr int most_tries = 100;
  for (int n = 1; n <= most_tries; ++n) {
    std::string stem = folder + "/" + (n == 1 ? wanted : fmt::format("{}-{}", wanted, n));
    if (is_ours(stem + ".log.json", test_id)) return stem;
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

// The sheet and the labels, as a PDF's bytes.
result<std::string> drawn_record(const state& s, const zone& z) {
  const sheet_text sheet = sheet_of(s, *s.last_reading, z);
  std::vector<label_text> labels;
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    labels.push_back(label_of(s, sample_number::from_index(i)));
  return draw_record_pdf(sheet, labels, rfc3339_utc(s.last_reading->wall));
}

} // namespace

std::string export_stem(const std::string& kit_number, bool rehearsal) {
  std::string safe;
  for (const char c : kit_number) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-') safe += c;
  }
  return (rehearsal ? "practice-quarterbreath-" : "quarterbreath-") + (safe.empty() ? "kit" : safe);
}

result<exported_files> export_record(const std::string& folder, const std::vector<event>& events,
                                     const std::string& program, const zone& z) {
  const state s = fold_events(events);
  const bool called_off = !s.earlier_plans.empty() && s.earlier_plans.back().called_off;
  if (!s.opening || !s.person || !s.last_reading || (!s.planned && !called_off))
    return tl::unexpected(refusal{refusal_kind::not_now, "", "export", "a test without a plan",
                                  "a test with a person and a plan"});
  std::vector<outgoing> files{{".log.json", write_log(events, program)}};
  if (s.planned) {
    auto pdf = drawn_record(s, z);
    if (!pdf) return tl::unexpected(pdf.error());
    files.push_back({".samples.csv", sheet_csv(s, *s.last_reading)});
    files.push_back({".sheet.pdf", std::move(*pdf)});
  }
  if (const auto made = make_folder(folder); !made) return tl::unexpected(made.error());
  const auto stem =
      free_stem(folder, export_stem(s.person->kit_number, s.rehearsal()), s.opening->test_id);
  if (!stem) return tl::unexpected(stem.error());
  exported_files out;
  for (const outgoing& file : files) {
    const std::string path = *stem + file.ending;
    if (const auto done = write_and_read_back(path, file.bytes); !done)
      return tl::unexpected(done.error());
    out.paths.push_back(path);
  }
  return out;
}

} // namespace qb
