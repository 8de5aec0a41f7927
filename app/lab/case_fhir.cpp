// From a case to the laboratory's part of FHIR.
#include "app/lab/case_fhir.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

// A moment of the readings' table as an instant in the laboratory's zone; none where it is none.
std::optional<instant> measured_of(const desk& at, const std::string& text) {
  constexpr std::size_t to_the_minute = 16;
  const auto t = moment_in(at.place(), text.substr(0, to_the_minute), "measured_at");
  return t ? std::optional(*t) : std::nullopt;
}

// "5.5" of 55 tenths.
std::string exact_tenths(int tenths) {
  return fmt::format("{}.{}", tenths / 10, tenths % 10);
}

} // namespace

fhir::laboratory_results results_of(const desk& at, const test_case& c) {
  fhir::laboratory_results out;
  for (const case_tube& t : c.tubes) {
    if (!t.gases || !t.closed) continue;
    const case_gases& g = *t.gases;
    const auto tenths = at.profile().receiving.co2_reference_tenths;
    const std::string to = g.corrected && tenths ? exact_tenths(*tenths) : "";
    out.gases.push_back({sample_number(t.number), g.h2, g.ch4, g.raw.co2_pct,
                         measured_of(at, g.raw.measured_at), to, g.raw.h2_ppm, g.raw.ch4_ppm});
  }
  if (is_judged(c)) {
    for (const judged_criterion& j : c.judged.criteria)
      out.criteria.push_back(
          {j.by->id, j.by->title, answer_text(j.says.what), j.reason, citation_of(*j.by)});
  }
  if (is_draft(c)) return out;
  out.conclusion = c.concluded->words;
  out.reader = c.concluded->by;
  out.issued = c.concluded->at;
  return out;
}

} // namespace qb::lab
