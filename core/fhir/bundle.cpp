// The resources in their order, and around them the Bundle.
#include "core/fhir/bundle.hpp"

#include "core/fhir/resources.hpp"
#include "core/fhir/without_empty.hpp"

#include <iterator>

namespace qb::fhir {

namespace {

void add(std::vector<resource>& all, std::vector<resource> more) {
  std::move(more.begin(), more.end(), std::back_inserter(all));
}

std::vector<resource> of_the_log(const making& m) {
  std::vector<resource> out{patient_of(m), device_of(m)};
  add(out, specimens_of(m));
  add(out, scores_of(m));
  if (auto drink = drink_of(m)) out.push_back(std::move(*drink));
  out.push_back(answers_of(m));
  return out;
}

value bundle_of(const making& m, std::vector<resource> made) {
  array entries;
  for (resource& one : made)
    entries.push_back(
        object{{"fullUrl", "urn:uuid:" + uuid_of(m, one.part)}, {"resource", std::move(one.body)}});
  value out = begin(m, "Bundle", "bundle");
  out.set("identifier", identifier("test", m.told.test_id));
  out.set("type", "collection");
  out.set("timestamp", moment(m, m.log.events.back().at.wall));
  out.set("entry", std::move(entries));
  return out;
}

// All resources of a log, made with `m`.
result<std::vector<resource>> all_of(const making& m, const bundle_choices& choices,
                                     const std::optional<laboratory_results>& results) {
  if (m.told.rehearsal && !choices.rehearsals)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "", "practice, not a test",
                                  "a test, or --rehearsals to take practice marked as such"});
  std::vector<resource> made = of_the_log(m);
  add(made, provenance_of(m, made));
  if (!results) return made;
  auto more = results_of(m, *results);
  if (!more) return tl::unexpected(more.error());
  more->push_back(provenance_of_results(m, *more, results->issued));
  add(made, std::move(*more));
  return made;
}

// Puts TYPE/ID in the place of each resource's name in a bundle.
std::string named_by_type(std::string line, const making& m, const std::vector<resource>& made) {
  const std::string mark = "urn:uuid:";
  for (std::size_t at = 0; (at = line.find(mark, at)) != line.npos; ++at) {
    for (const resource& one : made) {
      const std::string id = uuid_of(m, one.part);
      if (line.compare(at + mark.size(), id.size(), id) != 0) continue;
      line.replace(at, mark.size(), *one.body.find("resourceType")->text() + "/");
      break;
    }
  }
  return line;
}

} // namespace

result<std::string> bundle_text(const read_log_result& log, const report& told,
                                const code_list& codes, const bundle_choices& choices,
                                const std::optional<laboratory_results>& results) {
  const state s = fold_events(log.events);
  QB_BELIEVE(s.last_reading && told.events == log.events.size());
  const making m{log, s, told, codes, choices.with_name, choices.mark};
  auto made = all_of(m, choices, results);
  if (!made) return tl::unexpected(made.error());
  return json::pretty(without_empty(bundle_of(m, std::move(*made))));
}

result<std::string> resource_lines(const read_log_result& log, const report& told,
                                   const code_list& codes, const bundle_choices& choices,
                                   const std::optional<laboratory_results>& results) {
  const state s = fold_events(log.events);
  QB_BELIEVE(s.last_reading && told.events == log.events.size());
  const making m{log, s, told, codes, choices.with_name, choices.mark};
  const auto made = all_of(m, choices, results);
  if (!made) return tl::unexpected(made.error());
  std::string out;
  for (const resource& one : *made)
    out += named_by_type(json::one_line(without_empty(one.body)), m, *made);
  return out;
}

} // namespace qb::fhir
