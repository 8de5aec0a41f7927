// Opening a file of readings, those that came since, and the commands that only check one.
#include "app/lab/commands/readings_file.hpp"

#include "app/lab/context/judge_assets.hpp"
#include "app/lab/context/own_laboratory.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/intake/inputs.hpp"
#include "app/machine/files.hpp"
#include "core/record/codec.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/core.h>

namespace qb::lab {

namespace {

result<reading_layout> load_layout(const std::string& path) {
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto layout = read_reading_layout(*text);
  if (!layout) return tl::unexpected(in_file(layout.error(), path));
  return layout;
}

// Nothing where the table is a plain one.
result<std::optional<reading_layout>> layout_of(const shared_options& shared,
                                                const readings_options& o) {
  std::string path = o.layout;
  if (path.empty()) {
    const auto own = load_own_laboratory(shared.store);
    if (!own) return tl::unexpected(own.error());
    path = own->layout;
  }
  if (path.empty() || path == plain_layout) return std::optional<reading_layout>();
  auto layout = load_layout(path);
  if (!layout) return tl::unexpected(layout.error());
  return std::optional(std::move(*layout));
}

std::string run_text(const reading_run& of) {
  std::string out;
  for (const auto& [name, text] :
       {std::pair("run", &of.run), std::pair("analyser", &of.analyser),
        std::pair("calibration", &of.calibration), std::pair("control", &of.control)})
    if (!text->empty()) out += fmt::format("{}{} {}", out.empty() ? "" : ", ", name, *text);
  return printable(out);
}

constexpr const char* handed_table = "table";

// By name, which analysers number.
result<std::vector<std::string>> tables_in(const std::string& folder) {
  std::error_code no;
  std::vector<std::string> out;
  std::filesystem::directory_iterator at(folder, no);
  for (; !no && at != std::filesystem::directory_iterator(); at.increment(no))
    if (at->path().extension() == ".csv") out.push_back(at->path().string());
  if (no)
    return tl::unexpected(
        refusal{refusal_kind::missing, folder, "", no.message(), "a folder that can be read"});
  std::sort(out.begin(), out.end());
  return out;
}

} // namespace

result<readings_file> open_readings(const shared_options& shared, const lab_context_options& at,
                                    const readings_options& o) {
  const auto rules = load_judging_rules(at.assets);
  if (!rules) return tl::unexpected(rules.error());
  const auto codes = load_tube_codes(o.tube_codes);
  if (!codes) return tl::unexpected(codes.error());
  const auto layout = layout_of(shared, o);
  if (!layout) return tl::unexpected(layout.error());
  const auto text = o.file == "-" ? read_stream(at.standard_input) : read_file(o.file);
  if (!text) return tl::unexpected(text.error());
  const auto& flags = (*rules)->flags;
  return readings_file{read_readings(*text, flags.limits, *codes, *layout ? &**layout : nullptr),
                       sha256_hex(*text), flags.low_co2};
}

std::string gases_text(const gas_reading& r) {
  const auto one = [](const std::optional<exact>& n, reading_range is) {
    return n ? reading_text(*n, is) : "-";
  };
  return fmt::format("H2 {}, CH4 {} ppm at {}{}", one(r.h2_ppm, r.h2_is), one(r.ch4_ppm, r.ch4_is),
                     r.measured_at, r.invalid ? ", marked invalid" : "");
}

int check_readings_file(const shared_options& shared, const lab_context_options& at,
                        const readings_options& o, const console& to) {
  const auto file = open_readings(shared, at, o);
  if (!file) return say_no(file.error(), to);
  int status = 0;
  for (const refusal& no : file->table.refused)
    status = std::max(status, say_no(in_file(no, o.file), to));
  if (status != 0) return status;
  std::string run;
  for (std::size_t i = 0; i < file->table.readings.size(); ++i) {
    const gas_reading& r = file->table.readings[i];
    if (const std::string its = run_text(r.of); its != run) {
      run = its;
      to.out(run.empty() ? "no run is told of what follows\n" : run + "\n");
    }
    to.out(fmt::format(
        "line {}: {} tube {}: {}{}\n", file->table.lines[i], r.kit, r.sample, gases_text(r),
        r.co2_pct ? fmt::format(", CO2 {} %", reading_text(*r.co2_pct, r.co2_is)) : ""));
  }
  to.out(fmt::format("{}: ok, {} readings; nothing was taken in\n", o.file,
                     file->table.readings.size()));
  return 0;
}

int check_layouts(const std::vector<std::string>& files, const console& to) {
  int status = 0;
  for (const std::string& path : files) {
    const auto read = load_layout(path);
    to.out(read ? path + ": ok\n" : fmt::format("{}: refused: {}\n", path, sentence(read.error())));
    if (!read) status = std::max(status, exit_status(read.error()));
  }
  return status;
}

int take_new_tables(const shared_options& shared, const lab_context_options& at,
                    const readings_options& options, const console& to) {
  const auto own = load_own_laboratory(shared.store);
  if (!own) return say_no(own.error(), to);
  if (own->tables.empty())
    return say_no({refusal_kind::missing, "", "FILE", "no table",
                   "a table (CSV), or -; `set-up --tables` names the folder they come to"},
                  to);
  const auto files = tables_in(own->tables);
  if (!files) return say_no(files.error(), to);
  auto laboratory = laboratory_store::open(shared.store);
  if (!laboratory) return say_no(laboratory.error(), to);
  const auto taken = laboratory->handed(handed_table);
  if (!taken) return say_no(taken.error(), to);
  int status = 0;
  std::size_t fresh = 0;
  for (const std::string& file : *files) {
    const auto text = read_file(file);
    if (!text) {
      status = std::max(status, say_no(text.error(), to));
      continue;
    }
    const std::string digest = sha256_hex(*text);
    if (std::any_of(taken->begin(), taken->end(),
                    [&](const handed_row& r) { return r.of == digest; }))
      continue;
    if (shared.format == output_format::text) to.out(printable(file) + "\n");
    readings_options one = options;
    one.file = file;
    const int ended = take_readings(shared, at, one, to);
    status = std::max(status, ended);
    if (ended != 0) continue;
    ++fresh;
    const auto kept = laboratory->put(
        std::vector<handed_row>{{"", "", handed_table, digest, at.by, clock_moment()}});
    if (!kept) return say_no(kept.error(), to);
  }
  if (shared.format == output_format::text)
    to.out(
        fmt::format("{} new of {} tables in {}\n", fresh, files->size(), printable(own->tables)));
  return status;
}

} // namespace qb::lab
