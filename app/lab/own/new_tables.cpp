// `readings` without a file: each table that came into the laboratory's folder since, once.
#include "app/lab/commands/day.hpp"
#include "app/lab/context/lab_context.hpp"
#include "app/lab/context/printable.hpp"
#include "app/machine/files.hpp"
#include "core/record/codec.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/core.h>

namespace qb::lab {

namespace {

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
  auto desk = laboratory_store::open(shared.store);
  if (!desk) return say_no(desk.error(), to);
  const auto taken = desk->handed(handed_table);
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
    const auto kept =
        desk->put(std::vector<handed_row>{{"", "", handed_table, digest, at.by, clock_moment()}});
    if (!kept) return say_no(kept.error(), to);
  }
  if (shared.format == output_format::text)
    to.out(
        fmt::format("{} new of {} tables in {}\n", fresh, files->size(), printable(own->tables)));
  return status;
}

} // namespace qb::lab
