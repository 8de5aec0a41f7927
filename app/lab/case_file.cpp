// Finding the record, then the join.
#include "app/lab/case_file.hpp"

#include "app/lab/bench.hpp"
#include "app/lab/judge_assets.hpp"
#include "app/platform/files.hpp"
#include "core/record/log.hpp"

namespace qb::lab {

namespace {

result<finding_rules> load_finding_rules(const std::string& assets) {
  const std::string path = assets + "/findings/findings.json";
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto rules = read_finding_rules(*text);
  if (!rules) return tl::unexpected(in_file(rules.error(), path));
  return rules;
}

// The rows of that kit number, or of that test id.
result<std::vector<log_row>> rows_of(const desk& at, const std::string& kit_or_test) {
  auto rows = at.logs().find(which_tests::of_kit_number, kit_or_test);
  if (rows && rows->empty()) rows = at.logs().find(which_tests::of_test_id, kit_or_test);
  return rows;
}

refusal no_case(const desk& at, std::string found, std::string expected) {
  return {refusal_kind::missing, at.shared().store, "", std::move(found), std::move(expected)};
}

result<kept_case> case_of_log(const desk& at, const case_rules& rules, const log_row& row) {
  auto log = read_log(row.body);
  if (!log)
    return tl::unexpected(refusal{refusal_kind::machine, at.shared().store, "a kept log",
                                  "a damaged text (" + sentence(log.error()) + ")",
                                  "the log as it was taken in"});
  kept_case out;
  out.rehearsal = row.rehearsal;
  known_kit known;
  known.log = report_of(*log, at.shared().zones, at.shared().own);
  known.told = told_tubes_of(*known.log);
  auto bench = load_bench(at.bench(), row.kit_number);
  if (!bench) return tl::unexpected(bench.error());
  auto joined =
      case_of(*log, *known.log, *bench, rules, as_findings(at.findings_of(*bench, known)));
  if (!joined) return tl::unexpected(in_file(joined.error(), at.shared().store));
  out.what = std::move(*joined);
  out.bench = std::move(*bench);
  out.log = std::move(*log);
  return out;
}

result<kept_case> case_of_paper(const desk& at, const case_rules& rules, bench_kit bench) {
  const paper_record& sheet = bench.papers.back();
  const protocol* test = at.test(sheet.protocol);
  if (test == nullptr)
    return tl::unexpected(no_case(at, "a paper sheet of another test", "one of the laboratory's"));
  known_kit known;
  known.told = told_tubes_of(sheet);
  kept_case out;
  out.what = case_of(sheet, *test, bench, rules, as_findings(at.findings_of(bench, known)));
  out.bench = std::move(bench);
  return out;
}

// What the laboratory brings to its cases: profile, findings, criteria and flags of its assets.
result<case_rules> load_case_rules(const desk& at) {
  case_rules out;
  out.profile = at.profile();
  auto findings = load_finding_rules(at.options().assets);
  if (!findings) return tl::unexpected(findings.error());
  out.findings = std::move(*findings);
  auto judging = load_judging_rules(at.options().assets);
  if (!judging) return tl::unexpected(judging.error());
  out.judging = std::move(*judging);
  return out;
}

result<kept_case> load_case(const desk& at, const case_rules& rules,
                            const std::string& kit_or_test) {
  const auto rows = rows_of(at, kit_or_test);
  if (!rows) return tl::unexpected(rows.error());
  const log_row* row = nullptr; // the test that started last
  for (const log_row& one : *rows)
    if (at.options().rehearsals || !one.rehearsal) row = &one;
  if (row != nullptr) return case_of_log(at, rules, *row);
  auto bench = load_bench(at.bench(), kit_or_test);
  if (!bench) return tl::unexpected(bench.error());
  if (!bench->papers.empty()) return case_of_paper(at, rules, std::move(*bench));
  if (!rows->empty())
    return tl::unexpected(
        no_case(at, "practice, not a test", "a test, or --rehearsals for practice marked as such"));
  return tl::unexpected(no_case(at, "neither a log nor a paper sheet of it",
                                "a kit number or test id that was imported, or entered by paper"));
}

} // namespace

result<opened_case> open_case(const shared_options& shared, const desk_options& options,
                              const std::string& kit_or_test) {
  auto at = desk::open(shared, options, false);
  if (!at) return tl::unexpected(at.error());
  auto rules = load_case_rules(*at);
  if (!rules) return tl::unexpected(rules.error());
  auto kept = load_case(*at, *rules, kit_or_test);
  if (!kept) return tl::unexpected(kept.error());
  return opened_case{std::move(*at), std::move(*rules), std::move(*kept)};
}

} // namespace qb::lab
