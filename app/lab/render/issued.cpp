// Making a report's bytes.
#include "app/lab/render/issued.hpp"

#include "app/lab/context/code_files.hpp"
#include "app/lab/render/report_fhir.hpp"
#include "app/lab/render/report_json.hpp"
#include "app/lab/render/report_sheet.hpp"

namespace qb::lab {

namespace {

result<std::string> fhir_of(const lab_context& at, const kept_case& kept, bool with_name) {
  if (!kept.log)
    return tl::unexpected(refusal{refusal_kind::missing, "", "--format fhir",
                                  "a kit with a code or a paper sheet alone",
                                  "a kit whose log is here"});
  const auto codes = load_codes(at.options().assets);
  if (!codes) return tl::unexpected(codes.error());
  return fhir::bundle_text(*kept.log, *kept.what.log, *codes,
                           {with_name, at.options().rehearsals, kept.mark},
                           report_results(at, kept.what));
}

} // namespace

result<std::string> report_bytes(const lab_context& at, const kept_case& kept,
                                 const std::string& format, bool with_name) {
  if (format == "json") return report_json(kept, at.profile());
  if (format == "fhir") return fhir_of(at, kept, with_name);
  return page::draw_report_pdf(report_sheet_of(kept, at.profile()), rfc3339_utc(kept.what.as_of));
}

result<std::vector<issued_row>> issued_with(const opened_case& open, const conclusion& next,
                                            const signed_evidence& seal) {
  kept_case then = open.kept;
  then.reader_seal = seal;
  then.received.conclusions.push_back(next);
  auto what = case_of_known(open.at, open.rules, then.received, then.known);
  if (!what) return tl::unexpected(what.error());
  then.what = std::move(*what);
  std::vector<issued_row> out;
  for (const char* format : {"pdf", "json", "fhir"}) {
    if (format == std::string("fhir") && !then.log) continue;
    auto bytes = report_bytes(open.at, then, format, false);
    if (!bytes) return tl::unexpected(bytes.error());
    out.push_back({0, next.kit, next.mark.test, next.number, format, {std::move(*bytes)}});
  }
  return out;
}

} // namespace qb::lab
