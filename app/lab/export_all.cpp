// The command `export`: tests, tubes and FHIR resources for a data warehouse.
// Kit numbers stand for people; names and birth dates stay in the store.
#include "app/lab/code_files.hpp"
#include "app/lab/day.hpp"
#include "app/lab/export_rows.hpp"
#include "app/lab/kit_list.hpp"
#include "app/platform/files.hpp"
#include "core/fhir/bundle.hpp"
#include "core/record/log.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

// Readings of tubes that the record has as blown; the standard's Specimen has no others.
fhir::laboratory_results results_of(const desk& at, const bench_kit& bench, const report& told) {
  fhir::laboratory_results out;
  for (const counted_reading& c : counted_readings(bench)) {
    const gas_reading& r = c.reading;
    const auto tube = std::find_if(told.tubes.begin(), told.tubes.end(), [&](const report_tube& t) {
      return t.number.value() == r.sample && t.closed.has_value();
    });
    if (tube == told.tubes.end()) continue;
    fhir::gas_reading gas;
    gas.number = tube->number;
    gas.h2 = r.h2_ppm;
    gas.ch4 = r.ch4_ppm;
    gas.co2 = r.co2_pct;
    constexpr std::size_t to_the_minute = 16;
    if (const auto when = moment_in(at.place(), r.measured_at.substr(0, to_the_minute), ""))
      gas.measured = *when;
    out.gases.push_back(gas);
  }
  if (!bench.conclusions.empty()) {
    out.conclusion = bench.conclusions.back().words;
    out.reader = bench.conclusions.back().by;
    out.issued = bench.conclusions.back().at;
  }
  return out;
}

// The resources of every log of the kit; what the bench added goes with the last.
result<std::string> lines_of(const desk& at, const bench_kit& bench, const fhir::code_list& codes) {
  const auto rows = at.logs().find(which_tests::of_kit_number, bench.kit);
  if (!rows) return tl::unexpected(rows.error());
  std::string out;
  for (const log_row& row : *rows) {
    if (row.rehearsal && !at.options().rehearsals) continue;
    const auto log = read_log(row.body);
    if (!log)
      return tl::unexpected(refusal{refusal_kind::machine, at.shared().store, "a kept log",
                                    "a damaged text", "the log as it was taken in"});
    const report told = report_of(*log, at.shared().zones, at.shared().own);
    std::optional<fhir::laboratory_results> results;
    if (&row == &rows->back() && !bench.readings.empty()) results = results_of(at, bench, told);
    const auto lines =
        fhir::resource_lines(*log, told, codes, {false, at.options().rehearsals}, results);
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
};

result<written_files> gather(const desk& at, const fhir::code_list& codes) {
  written_files out;
  out.tests = tests_header();
  out.tubes = tubes_header();
  const auto done = every_kit(at, [&](const bench_kit& bench, const known_kit& known) {
    out.tests += test_row(at, bench, known);
    out.tubes += tube_rows(at, bench, known);
    ++out.kits;
    const auto lines = lines_of(at, bench, codes);
    if (!lines) return result<void>(tl::unexpected(lines.error()));
    out.fhir += *lines;
    return result<void>();
  });
  if (!done) return tl::unexpected(done.error());
  return out;
}

} // namespace

int export_all(const shared_options& shared, const desk_options& o, const std::string& folder,
               const console& to) {
  const auto codes = load_codes(o.assets);
  if (!codes) return say_no(codes.error(), to);
  const auto at = desk::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  const auto files = gather(*at, *codes);
  if (!files) return say_no(files.error(), to);
  if (const auto made = make_folder(folder); !made) return say_no(made.error(), to);
  for (const auto& [name, bytes] :
       {std::pair("/tests.csv", &files->tests), std::pair("/tubes.csv", &files->tubes),
        std::pair("/fhir.ndjson", &files->fhir)}) {
    if (const auto written = write_file(folder + name, *bytes); !written)
      return say_no(written.error(), to);
  }
  to.out(fmt::format("{} kits in tests.csv, tubes.csv and fhir.ndjson\n", files->kits));
  return 0;
}

} // namespace qb::lab
