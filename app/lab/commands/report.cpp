// The commands `report` and `judge KIT`.
#include "app/lab/commands/case_commands.hpp"
#include "app/lab/context/case_file.hpp"
#include "app/lab/context/output.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/render/issued.hpp"
#include "app/lab/render/judge_text.hpp"
#include "app/lab/render/report_json.hpp"
#include "app/lab/render/report_sheet.hpp"

#include <cctype>
#include <fmt/core.h>

namespace qb::lab {

namespace {

// What went out with the conclusion of that number, byte for byte.
result<std::string> issued_bytes(const opened_case& o, const report_options& how) {
  const auto all = o.at.received().issued_of(o.kept.received.test, how.number);
  if (!all) return tl::unexpected(all.error());
  for (const issued_row& one : *all)
    if (one.format == how.format) return one.body.value;
  return tl::unexpected(refusal{refusal_kind::missing, "", "--number",
                                all->empty() ? "no report of that number was issued"
                                             : "it was not issued in that form",
                                "the number of a conclusion, and --format pdf, json or fhir"});
}

result<std::string> made(const opened_case& o, const report_options& how) {
  if (how.number != 0) return issued_bytes(o, how);
  return report_bytes(o.at, o.kept, how.format, how.with_name);
}

std::string draft_mark(const test_case& c) {
  if (!c.since.empty()) return ": a draft again, more came after its conclusion";
  return is_draft(c) ? ": a draft" : "";
}

} // namespace

std::string report_name(const std::string& kit, const std::string& format) {
  std::string out; // a kit number may hold what a file's name may not
  for (const char c : kit)
    out += std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' ? c : '_';
  if (format == "letters") return out + ".letters";
  if (format == "pdf") return out + ".report.pdf";
  return out + "." + (format == "json" ? "report" : "fhir") + ".json";
}

int write_report(const shared_options& shared, const lab_context_options& options,
                 const report_options& o, const console& to) {
  const auto opened = open_case(shared, options, o.kit_or_test);
  if (!opened) return say_no(opened.error(), to);
  const auto bytes = made(*opened, o);
  if (!bytes) return say_no(bytes.error(), to);
  if (o.out == "-") {
    to.data(*bytes);
    return 0;
  }
  const std::string path = o.out.empty() ? report_name(opened->kept.what.kit, o.format) : o.out;
  const found_output state =
      is_draft(opened->kept.what) ? found_output::draft : found_output::issued;
  const auto written =
      write_outputs({{path, *bytes, state}}, {shared.store, {options.profile}, options.replace});
  if (!written) return say_no(written.error(), to);
  to.out(path + (o.number != 0 ? "" : draft_mark(opened->kept.what)) + "\n");
  return 0;
}

int judge_kit(const shared_options& shared, const lab_context_options& options,
              const std::string& kit_or_test, const console& to) {
  const auto opened = open_case(shared, options, kit_or_test);
  if (!opened) return say_no(opened.error(), to);
  const test_case& c = opened->kept.what;
  if (shared.format == output_format::json) {
    to.out(report_json(opened->kept, opened->at.profile()));
    return 0;
  }
  std::string text =
      fmt::format("Kit {}. Minutes count from: {}.\n", c.kit, time_zero_text(c.zero));
  if (!opened->kept.mark.empty()) text = opened->kept.mark + ".\n" + text;
  if (c.code)
    text += "Times: from the code, log not here. Seal: " + seal_words(opened->kept.seal) + ".\n";
  if (opened->kept.beside) text += "Code: " + beside_words(*opened->kept.beside) + ".\n";
  if (is_judged(c)) {
    text += judge_text(c.judged, c.gases, c.by, c.precision);
  } else {
    text += "Not judged: this test cannot be used (";
    for (const std::string& rule : c.cannot_be_used)
      text += (&rule == &c.cannot_be_used.front() ? "" : ", ") + rule;
    text += ").\n";
  }
  text += "\n" + c.axes.words + "\n\nFindings\n";
  for (const page::report_finding& f : listed_findings(c))
    text += "  " + f.mark + "  " + f.words + (f.aside.empty() ? "" : " [" + f.aside + "]") + "\n";
  if (c.findings.empty()) text += "  none\n";
  if (c.concluded)
    text += fmt::format("\nConcluded by {}. {}\n", printable(c.concluded->by),
                        signed_words(opened->kept.reader_seal));
  if (!c.since.empty()) text += "\nConcluded before this came, so a draft again\n";
  for (const std::string& one : c.since)
    text += "  " + printable(one) + "\n";
  to.out(text);
  return 0;
}

} // namespace qb::lab
