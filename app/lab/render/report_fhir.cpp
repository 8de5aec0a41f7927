// From a case to the laboratory's part of FHIR.
#include "app/lab/render/report_fhir.hpp"

#include "app/lab/render/judge_text.hpp"
#include "core/case/concluding.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

// A moment of the readings' table as an instant in the laboratory's zone; none where it is none.
std::optional<instant> measured_of(const lab_context& at, const std::string& text) {
  constexpr std::size_t to_the_minute = 16;
  const auto t = moment_in(at.place(), text.substr(0, to_the_minute), "measured_at");
  return t ? std::optional(*t) : std::nullopt;
}

// "5.5" of 55 tenths.
std::string exact_tenths(int tenths) {
  return fmt::format("{}.{}", tenths / 10, tenths % 10);
}

// What stands beside an answer in the report, as sentences.
std::vector<std::string> limits_of(const test_case& c, const judged_criterion& j) {
  std::vector<std::string> out;
  out.push_back(firmness_words(j.how_firm, j.says.what, c.by.terms, c.precision));
  for (const std::string& more : {strict_words(j.how_firm, j.says.what), others_words(j.how_firm)})
    if (!more.empty()) out.push_back(more);
  if (j.low_co2) out.push_back(low_co2_words(j));
  return out;
}

fhir::result_status status_of(conclusion_kind k) {
  switch (k) {
  case conclusion_kind::final_one: return fhir::result_status::final_one;
  case conclusion_kind::amended: return fhir::result_status::amended;
  case conclusion_kind::corrected: return fhir::result_status::corrected;
  case conclusion_kind::cannot_be_reported: return fhir::result_status::cancelled;
  }
  QB_BELIEVE(false);
  return fhir::result_status::final_one;
}

std::string finding_text(const case_finding& f) {
  const std::string tube = f.what.sample ? fmt::format(", tube {}", f.what.sample->value()) : "";
  const char* bars = f.weight == consequence::cannot_be_used ? "Cannot be used: " : "";
  return fmt::format("{}{}{} ({})", bars, f.name, tube, f.what.rule);
}

} // namespace

fhir::laboratory_results report_results(const lab_context& at, const test_case& c) {
  fhir::laboratory_results out;
  for (const case_tube& t : c.tubes) {
    if (!t.gases || !t.closed) continue;
    const case_gases& g = *t.gases;
    const auto tenths = at.profile().receiving.co2_reference_tenths;
    const std::string to = g.corrected && tenths ? exact_tenths(*tenths) : "";
    out.gases.push_back({sample_number(t.number), g.h2, g.ch4, g.raw.co2_pct,
                         measured_of(at, g.raw.measured_at), to, g.raw.h2_ppm, g.raw.ch4_ppm,
                         g.raw.h2_is, g.raw.ch4_is, g.raw.co2_is});
  }
  if (is_judged(c)) {
    for (const judged_criterion& j : c.judged.criteria)
      out.criteria.push_back({j.by->id, j.by->title, answer_text(j.says.what), j.reason,
                              citation_of(*j.by), limits_of(c, j)});
  }
  for (const case_finding& f : c.findings) {
    if (!f.stands() || f.weight == consequence::note) continue;
    // The name and not the words: what a person told may stand in those.
    out.findings.push_back({f.what.rule, f.what.sample, finding_text(f)});
  }
  if (is_draft(c)) return out;
  out.conclusion = printed_conclusion(*c.concluded);
  out.status = status_of(c.concluded->kind);
  out.reader = c.concluded->by;
  out.issued = c.concluded->at;
  return out;
}

} // namespace qb::lab
