// What the laboratory adds: each gas of a tube at the tube's true time, each criterion's answer,
// and the report that holds them together. The published codes found for gases are of nominal
// times, so a code of ours and words stand there.
#include "core/fhir/resources.hpp"

#include <fmt/core.h>
#include <map>
#include <set>

namespace qb::fhir {

namespace {

// One gas: its use in the list of codes, what it is called, and its unit.
struct gas {
  const char* id;
  const char* words;
  const char* unit;
};
constexpr gas hydrogen{"h2", "Hydrogen in exhaled air", "ppm"};
constexpr gas methane{"ch4", "Methane in exhaled air", "ppm"};
constexpr gas carbon_dioxide{"co2", "Carbon dioxide in exhaled air", "%"};

bool is_final(const laboratory_results& r) {
  return !clean(r.conclusion).empty() && !clean(r.reader).empty();
}

// A DiagnosticReport's, by the value set diagnostic-report-status of FHIR R4.
const char* report_status(const laboratory_results& r) {
  if (!is_final(r)) return "preliminary";
  switch (r.status) {
  case result_status::final_one: return "final";
  case result_status::amended: return "amended";
  case result_status::corrected: return "corrected";
  case result_status::cancelled: return "cancelled";
  }
  QB_BELIEVE(false);
  return "";
}

// An Observation's: what no report stands for is never final.
const char* status_of(const laboratory_results& r) {
  return r.status == result_status::cancelled ? "preliminary" : report_status(r);
}

constexpr const char* draft_words =
    "A draft for a qualified person. It supports their reading and decides nothing.";

std::optional<refusal> no_to(const making& m, const gas_reading& g, std::set<int>& seen) {
  const auto no = [&](std::string found, std::string expected) {
    return refusal{refusal_kind::malformed, "", fmt::format("tube {}", g.number.value()),
                   std::move(found), std::move(expected)};
  };
  if (g.number.index() >= m.s.samples.size())
    return no("a reading of a tube that this test does not have", "a tube of this test");
  if (!m.s.of(g.number).taken)
    return no("a reading of a tube that the log does not have as blown", "a tube that was blown");
  if (!seen.insert(g.number.value()).second) return no("two readings", "one for each tube");
  return std::nullopt;
}

// A value that was reckoned is never shown as one that was measured.
std::string correction(const gas_reading& g, const std::optional<exact>& measured,
                       reading_range is) {
  if (g.corrected_to.empty() || !measured) return "";
  return fmt::format("Corrected to {} % carbon dioxide; measured: {} ppm.", g.corrected_to,
                     reading_text(*measured, is));
}

resource gas_of(const making& m, const laboratory_results& r, const gas_reading& g, const gas& what,
                const ranged_reading& measured, const std::string& note = "") {
  const std::string part = fmt::format("gas/{}/{}", g.number.value(), what.id);
  value out = begin(m, "Observation", part);
  out.set("identifier", array{identifier("gas", tube_name(m, g.number) + "/" + what.id)});
  out.set("status", status_of(r));
  out.set("code", concept_of(m, {std::string("gas.") + what.id}, what.words));
  out.set("subject", reference(m, "patient"));
  out.set("effectiveDateTime", moment(m, m.s.of(g.number).taken->closed));
  if (g.measured) out.set("issued", moment(m, *g.measured));
  value amount = quantity(m, json::decimal{measured.figure.text()}, what.unit);
  if (measured.is != reading_range::within)
    amount.set("comparator", measured.is == reading_range::below ? "<" : ">");
  out.set("valueQuantity", std::move(amount));
  if (!note.empty()) out.set("note", notes({note}));
  out.set("specimen", reference(m, tube_part(g.number)));
  return {part, std::move(out)};
}

resource criterion_of(const making& m, const laboratory_results& r, const criterion_answer& c) {
  const std::string part = "criterion/" + c.id;
  value out = begin(m, "Observation", part);
  out.set("identifier", array{identifier("criterion", test_of(m) + "/" + c.id)});
  out.set("status", status_of(r));
  out.set("code", words_only("Criterion " + c.id + ": " + c.title));
  out.set("subject", reference(m, "patient"));
  if (m.told.anchor) out.set("effectiveDateTime", moment(m, *m.told.anchor));
  out.set("valueString", clean(c.answer + ": " + c.reason));
  std::vector<std::string> said{"Published by: " + c.citation};
  said.insert(said.end(), c.limits.begin(), c.limits.end());
  if (!is_final(r)) said.emplace_back(draft_words);
  out.set("note", notes(said));
  return {part, std::move(out)};
}

// Words alone: no published code says that a reader has to look at something. `nth` of its rule and
// tube, from 1.
resource finding_of(const making& m, const laboratory_results& r, const review_finding& f,
                    std::size_t nth) {
  std::string name = f.rule;
  if (f.tube) name += fmt::format("/{}", f.tube->value());
  if (nth > 1) name += fmt::format("/again-{}", nth);
  const std::string part = "finding/" + name;
  value out = begin(m, "Observation", part);
  out.set("identifier", array{identifier("finding", test_of(m) + "/" + name)});
  out.set("status", status_of(r));
  out.set("code", words_only("Finding for review"));
  out.set("subject", reference(m, "patient"));
  if (m.told.anchor) out.set("effectiveDateTime", moment(m, *m.told.anchor));
  out.set("valueString", clean(f.words));
  return {part, std::move(out)};
}

// What a person reads who sees the report and nothing of its parts.
value narrative(const laboratory_results& r) {
  const std::string words =
      is_final(r) ? "That a criterion is met, or not, is no diagnosis." : std::string(draft_words);
  return object{{"status", "additional"},
                {"div", "<div xmlns=\"http://www.w3.org/1999/xhtml\">" + words + "</div>"}};
}

resource report_on(const making& m, const laboratory_results& r,
                   const std::vector<resource>& results) {
  value out = begin(m, "DiagnosticReport", "report");
  out.set("text", narrative(r));
  out.set("identifier", array{identifier("report", test_of(m))});
  out.set("status", report_status(r));
  out.set("code", concept_of(m, {"panel." + m.s.test->sugar.name}, m.s.test->title));
  out.set("subject", reference(m, "patient"));
  if (m.told.anchor) out.set("effectiveDateTime", moment(m, *m.told.anchor));
  if (r.issued) out.set("issued", moment(m, *r.issued));
  array readers;
  if (!clean(r.reader).empty()) readers.push_back(object{{"display", clean(r.reader)}});
  out.set("resultsInterpreter", std::move(readers));
  array specimens;
  for (const gas_reading& g : r.gases)
    specimens.push_back(reference(m, tube_part(g.number)));
  out.set("specimen", std::move(specimens));
  array references;
  for (const resource& one : results)
    references.push_back(reference(m, one.part));
  out.set("result", std::move(references));
  if (is_final(r)) out.set("conclusion", clean(r.conclusion));
  return {"report", std::move(out)};
}

} // namespace

result<std::vector<resource>> results_of(const making& m, const laboratory_results& results) {
  if (!m.s.test)
    return tl::unexpected(refusal{refusal_kind::missing, "", "the log", "no test that was chosen",
                                  "a log with a test, for results to belong to"});
  std::vector<resource> out;
  std::set<int> seen;
  for (const gas_reading& g : results.gases) {
    if (auto no = no_to(m, g, seen)) return tl::unexpected(std::move(*no));
    if (g.h2)
      out.push_back(
          gas_of(m, results, g, hydrogen, {*g.h2, g.h2_is}, correction(g, g.h2_measured, g.h2_is)));
    if (g.ch4)
      out.push_back(gas_of(m, results, g, methane, {*g.ch4, g.ch4_is},
                           correction(g, g.ch4_measured, g.ch4_is)));
    if (g.co2) out.push_back(gas_of(m, results, g, carbon_dioxide, {*g.co2, g.co2_is}));
  }
  for (const criterion_answer& c : results.criteria)
    out.push_back(criterion_of(m, results, c));
  std::map<std::pair<std::string, int>, std::size_t> times;
  for (const review_finding& f : results.findings)
    out.push_back(finding_of(m, results, f, ++times[{f.rule, f.tube ? f.tube->value() : 0}]));
  out.push_back(report_on(m, results, out));
  return out;
}

} // namespace qb::fhir
