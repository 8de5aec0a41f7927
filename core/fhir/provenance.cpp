// Who says what a bundle says: the person as author, the program as what assembled it; and each
// correction as an act of its own, with its moment and reason.
#include "core/fhir/resources.hpp"

#include "core/session/correct.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::fhir {

namespace {

value agent(const making& m, const char* type, const char* part) {
  return object{{"type", words_only(type)}, {"who", reference(m, part)}};
}

value source_of(const making& m) {
  return object{{"role", "source"},
                {"what", object{{"identifier", identifier("log-head", m.told.head)},
                                {"display", "The timing log, by the hash of its last event"}}}};
}

resource whole(const making& m, const std::vector<resource>& made) {
  value out = begin(m, "Provenance", "provenance");
  array targets;
  for (const resource& one : made)
    targets.push_back(reference(m, one.part));
  out.set("target", std::move(targets));
  out.set("occurredPeriod", period(m, m.log.events.front().at.wall, m.log.events.back().at.wall));
  out.set("recorded", moment(m, m.log.events.back().at.wall));
  out.set("agent", array{agent(m, "author", "patient"), agent(m, "assembler", "device")});
  out.set("entity", array{source_of(m)});
  return {"provenance", std::move(out)};
}

// Two tubes, and where they changed places the scores that went with them.
std::vector<std::string> exchanged(const making& m, sample_number a, sample_number b,
                                   bool with_scores) {
  std::vector<std::string> out{tube_part(a), tube_part(b)};
  for (const symptom& what : m.told.symptoms) {
    if (!with_scores) break;
    out.push_back(score_part(a, what.id));
    out.push_back(score_part(b, what.id));
  }
  return out;
}

// The parts of the bundle that a correction changed.
std::vector<std::string> changed_by(const making& m, const noted_correction& c) {
  if (const auto* to = std::get_if<right_score>(&c.what.to)) {
    const auto n = sample_scored_by(m.s, c.what.seq);
    if (n) return {score_part(*n, to->symptom)};
    return c.after ? std::vector{score_part(*c.after, to->symptom)} : std::vector<std::string>{};
  }
  if (const auto* to = std::get_if<right_tube>(&c.what.to))
    return c.sample ? exchanged(m, *c.sample, to->really, c.both_blown)
                    : std::vector<std::string>{};
  const auto n = sample_closed_by(m.s, c.what.seq);
  if (n) return {tube_part(*n)};
  return {c.sample ? tube_part(*c.sample) : std::string(drink_name)};
}

std::optional<resource> correction(const making& m, const noted_correction& c,
                                   const std::vector<resource>& made) {
  array targets;
  for (const std::string& part : changed_by(m, c)) {
    const bool there = std::any_of(made.begin(), made.end(),
                                   [&](const resource& one) { return one.part == part; });
    if (there) targets.push_back(reference(m, part));
  }
  if (targets.empty()) return std::nullopt;
  const std::string part = fmt::format("correction/{}", c.seq);
  value out = begin(m, "Provenance", part);
  const std::string at = moment(m, event_of(m, c.seq).at.wall);
  out.set("target", std::move(targets));
  out.set("occurredDateTime", at);
  out.set("recorded", at);
  array reasons;
  if (!clean(c.what.reason).empty()) reasons.push_back(words_only(c.what.reason));
  out.set("reason", std::move(reasons));
  out.set("activity", words_only("Correction of what was told before"));
  out.set("agent", array{agent(m, "author", "patient"), agent(m, "assembler", "device")});
  return resource{part, std::move(out)};
}

} // namespace

std::vector<resource> provenance_of(const making& m, const std::vector<resource>& made) {
  std::vector<resource> out{whole(m, made)};
  for (const noted_correction& c : m.s.corrections)
    if (auto one = correction(m, c, made)) out.push_back(std::move(*one));
  return out;
}

resource provenance_of_results(const making& m, const std::vector<resource>& made,
                               std::optional<instant> issued) {
  value out = begin(m, "Provenance", "provenance/results");
  array targets;
  for (const resource& one : made)
    targets.push_back(reference(m, one.part));
  out.set("target", std::move(targets));
  out.set("recorded", moment(m, issued.value_or(m.log.events.back().at.wall)));
  const std::string laboratory = m.s.profile ? clean(m.s.profile->name) : "the laboratory";
  out.set("agent",
          array{object{{"type", words_only("author")}, {"who", object{{"display", laboratory}}}}});
  return {"provenance/results", std::move(out)};
}

} // namespace qb::fhir
