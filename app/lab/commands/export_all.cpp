// The command `export`: tests, tubes and FHIR resources for a data warehouse.
// Kit numbers stand for people; names and birth dates stay in the store.
#include "app/lab/commands/day.hpp"
#include "app/lab/context/case_file.hpp"
#include "app/lab/context/code_files.hpp"
#include "app/lab/context/handed.hpp"
#include "app/lab/context/kit_tests.hpp"
#include "app/lab/context/lab_context.hpp"
#include "app/lab/context/output.hpp"
#include "app/lab/render/export_rows.hpp"
#include "app/lab/render/report_fhir.hpp"
#include "app/machine/files.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

// The resources of a test's log, with what the laboratory added; none where it came otherwise.
result<std::string> lines_of(const lab_context& at, const case_rules& rules, const kept_test& t,
                             const fhir::code_list& codes) {
  if (!t.known.log) return std::string();
  std::optional<fhir::laboratory_results> results;
  if (!t.received.readings.empty()) {
    const auto one = case_of_known(at, rules, t.received, t.known);
    if (!one) return tl::unexpected(one.error());
    results = report_results(at, *one);
  }
  return fhir::resource_lines(*t.known.events, *t.known.log, codes,
                              {false, at.options().rehearsals, at.standing().mark}, results);
}

struct written_files {
  std::string tests;
  std::string tubes;
  std::string fhir;
  std::int64_t kits{0};
  std::int64_t with_log{0}; // only these have FHIR
  std::vector<damaged_kit> damaged;
  std::vector<handed_mark> marks; // of what was written of each test
};

constexpr const char* handed_exports = "export";

result<written_files> gather(const lab_context& at, const case_rules& rules,
                             const fhir::code_list& codes, const handed_marks* known_already) {
  written_files out;
  out.tests = tests_header();
  out.tubes = tubes_header();
  std::string last_kit;
  const auto done = every_test(at, [&](const kept_kit& of, const kept_test& t) {
    const auto lines = lines_of(at, rules, t, codes);
    if (!lines) return result<void>(tl::unexpected(lines.error()));
    const std::string test = test_row(at, facts_of(at, rules, t.received, t.known), t.known);
    const std::string tubes = tube_rows(at, t.received, t.known);
    const handed_mark mark{of.kit, t.received.test, mark_of(test + tubes + *lines)};
    if (known_already != nullptr && known_already->has(mark)) return result<void>();
    out.tests += test;
    out.tubes += tubes;
    out.kits += of.kit == last_kit ? 0 : 1;
    last_kit = of.kit;
    out.marks.push_back(mark);
    out.fhir += *lines;
    out.with_log += lines->empty() ? 0 : 1;
    return result<void>();
  });
  if (!done) return tl::unexpected(done.error());
  out.damaged = *done;
  return out;
}

} // namespace

int export_all(const shared_options& shared, const lab_context_options& o,
               const std::string& folder, const console& to, bool only_new) {
  const auto codes = load_codes(o.assets);
  if (!codes) return say_no(codes.error(), to);
  const auto at = lab_context::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  const auto rules = load_case_rules(*at);
  if (!rules) return say_no(rules.error(), to);
  const auto before = load_handed(shared.store, handed_exports);
  if (!before) return say_no(before.error(), to);
  const auto files = gather(*at, *rules, *codes, only_new ? &*before : nullptr);
  if (!files) return say_no(files.error(), to);
  if (const auto made = make_folder(folder); !made) return say_no(made.error(), to);
  const auto written = write_outputs({{folder + "/tests.csv", files->tests},
                                      {folder + "/tubes.csv", files->tubes},
                                      {folder + "/fhir.ndjson", files->fhir}},
                                     {shared.store, {o.profile}, o.replace});
  if (!written) return say_no(written.error(), to);
  const auto kept = keep_handed(shared.store, handed_exports, files->marks, o.by);
  if (!kept) return say_no(kept.error(), to);
  to.out(fmt::format("{} kits in tests.csv and tubes.csv, {} of them with a log, in fhir.ndjson\n",
                     files->kits, files->with_log));
  int status = 0;
  for (const damaged_kit& one : files->damaged)
    status = say_no(in_file(one.why, shared.store), to);
  return status;
}

} // namespace qb::lab
