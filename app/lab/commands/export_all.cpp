// The command `export`: tests, tubes and FHIR resources for a data warehouse.
// Kit numbers stand for people; names and birth dates stay in the store.
#include "app/lab/commands/day.hpp"
#include "app/lab/context/code_files.hpp"
#include "app/lab/context/lab_context.hpp"
#include "app/lab/context/output.hpp"
#include "app/lab/render/export_rows.hpp"
#include "app/lab/render/report_fhir.hpp"
#include "app/machine/files.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

// The resources of every log of the kit; what the laboratory added goes with the last, as its
// report has it.
result<std::string> lines_of(const lab_context& at, const case_rules& rules,
                             const received_kit& received, const fhir::code_list& codes) {
  const auto rows = at.logs().find(which_tests::of_kit_number, received.kit);
  if (!rows) return tl::unexpected(rows.error());
  std::string out;
  const log_row* last = nullptr; // the one that the kit's report is of
  for (const log_row& row : *rows)
    if (at.options().rehearsals || !row.rehearsal) last = &row;
  for (const log_row& row : *rows) {
    if (row.rehearsal && !at.options().rehearsals) continue;
    const auto known = at.known_of(row);
    if (!known) return tl::unexpected(known.error());
    std::optional<fhir::laboratory_results> results;
    if (&row == last && !received.readings.empty()) {
      const auto one = case_of_known(at, rules, received, *known);
      if (!one) return tl::unexpected(one.error());
      results = report_results(at, *one);
    }
    const auto lines = fhir::resource_lines(*known->events, *known->log, codes,
                                            {false, at.options().rehearsals}, results);
    if (!lines) return tl::unexpected(lines.error());
    out += *lines;
  }
  return out;
}

struct written_files {
  std::string tests;
  std::string tubes;
  std::string fhir;
  std::int64_t kits{0};
  std::int64_t with_log{0}; // only these have FHIR
};

result<written_files> gather(const lab_context& at, const case_rules& rules,
                             const fhir::code_list& codes) {
  written_files out;
  out.tests = tests_header();
  out.tubes = tubes_header();
  const auto done = every_kit(at, [&](const received_kit& received, const known_kit& known) {
    out.tests += test_row(at, facts_of(at, rules, received, known), known);
    out.tubes += tube_rows(at, received, known);
    ++out.kits;
    const auto lines = lines_of(at, rules, received, codes);
    if (!lines) return result<void>(tl::unexpected(lines.error()));
    out.fhir += *lines;
    out.with_log += lines->empty() ? 0 : 1;
    return result<void>();
  });
  if (!done) return tl::unexpected(done.error());
  return out;
}

} // namespace

int export_all(const shared_options& shared, const lab_context_options& o,
               const std::string& folder, const console& to) {
  const auto codes = load_codes(o.assets);
  if (!codes) return say_no(codes.error(), to);
  const auto at = lab_context::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  const auto rules = load_case_rules(*at);
  if (!rules) return say_no(rules.error(), to);
  const auto files = gather(*at, *rules, *codes);
  if (!files) return say_no(files.error(), to);
  if (const auto made = make_folder(folder); !made) return say_no(made.error(), to);
  const auto written = write_outputs({{folder + "/tests.csv", files->tests},
                                      {folder + "/tubes.csv", files->tubes},
                                      {folder + "/fhir.ndjson", files->fhir}},
                                     {shared.store, {o.profile}, o.replace});
  if (!written) return say_no(written.error(), to);
  to.out(fmt::format("{} kits in tests.csv and tubes.csv, {} of them with a log, in fhir.ndjson\n",
                     files->kits, files->with_log));
  return 0;
}

} // namespace qb::lab
