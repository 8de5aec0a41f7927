// Prints the FHIR bundle of a log with made-up results of the laboratory, for readers of another
// make to check: the command line does not have readings yet, core/fhir does.
//
// Usage: fhir_results ASSETS LOG    Tube n has n * 3.5 ppm hydrogen, n ppm methane, 4.2 % CO2.
#include "app/assets/zone_files.hpp"
#include "app/lab/context/code_files.hpp"
#include "app/machine/files.hpp"
#include "core/fhir/bundle.hpp"

#include <cstdio>
#include <string>

namespace {

using namespace qb;

fhir::laboratory_results made_up(const read_log_result& log) {
  fhir::laboratory_results out;
  const state s = fold_events(log.events);
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    const sample_number n = sample_number::from_index(i);
    if (!s.of(n).taken) continue;
    const exact h2 = (exact(n.value()).times(7)).half();
    out.gases.push_back({n, h2, exact(n.value()), exact::parse("4.2"),
                         s.last_reading->wall + std::chrono::days{4}});
  }
  out.criteria.push_back({"made-up",
                          "a criterion for this check",
                          "meets",
                          "so it was made",
                          "nobody: this value is made up",
                          {"Not firm: it was made so."}});
  out.findings.push_back({"made-up", sample_number(1), "Made up, tube 1 (made-up)"});
  out.conclusion = "Made up for a check.";
  out.reader = "Dr Maren Osk";
  out.issued = s.last_reading->wall + std::chrono::days{5};
  return out;
}

int answer(const std::string& assets, const std::string& path) {
  const auto codes = lab::load_codes(assets);
  const auto text = read_file(path);
  if (!codes || !text) return 2;
  const auto log = read_log(*text);
  if (!log) return 2;
  const auto bundle =
      fhir::bundle_text(*log, report_of(*log, load_zone), *codes, {false, true}, made_up(*log));
  if (!bundle) return 2;
  std::fwrite(bundle->data(), 1, bundle->size(), stdout);
  return std::fflush(stdout) == 0 ? 0 : 1;
}

} // namespace

int main(int argc, char** argv) {
  return argc == 3 ? answer(argv[1], argv[2]) : 2;
}
