// One Observation a symptom and sample, and one a symptom where scores belong to no tube: these
// have no specimen, and their note says when they were given. What was skipped is absent, never 0;
// what was told again or put right is `corrected`, and its notes say what stood before.
#include "core/fhir/resources.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::fhir {

namespace {

using score = std::optional<int>;

// One telling of a score, with the reason where it was a correction.
struct telling {
  score value;
  std::string reason;
};

const symptom_score* score_in(const std::vector<symptom_score>& scores,
                              const std::string& symptom) {
  const auto at = std::find_if(scores.begin(), scores.end(),
                               [&](const symptom_score& one) { return one.id == symptom; });
  return at == scores.end() ? nullptr : &*at;
}

// What was scored together: with a sample, or after the tubes.
struct scored {
  std::string part; // what each score's name begins with: "score/4/"
  std::string name; // of each score's identifier, before the symptom
  std::vector<symptom_score> scores{};
  std::vector<std::int64_t> events{};
  std::optional<reported_scorer> by{};
  instant at;
  bool exchanged{false};                   // came with a tube that was exchanged for another
  std::optional<sample_number> specimen{}; // the tube it belongs to, where that was taken
  std::string note{};                      // what must be said of when it was
};

// All that was told of one symptom then, in order.
std::vector<telling> tellings(const making& m, const scored& at, const std::string& symptom) {
  std::vector<telling> out;
  for (const std::int64_t seq : at.events) {
    const payload& what = event_of(m, seq).what;
    if (const auto* told = std::get_if<reported_symptoms>(&what)) {
      if (const auto* one = score_in(told->scores, symptom)) out.push_back({one->score, ""});
    } else if (const auto* after = std::get_if<reported_symptoms_after>(&what)) {
      if (const auto* one = score_in(after->scores, symptom)) out.push_back({one->score, ""});
    } else if (const auto* right = std::get_if<corrected>(&what)) {
      const auto* to = std::get_if<right_score>(&right->to);
      if (to != nullptr && to->symptom == symptom) out.push_back({to->score, right->reason});
    }
  }
  return out;
}

std::string score_words(const score& value) {
  return value ? fmt::format("{}", *value) : "no score";
}

// "First told as 3; then as 5. Reason: …", where it was told more than once.
std::string history_words(const std::vector<telling>& all) {
  if (all.size() < 2) return "";
  std::string out = "First told as " + score_words(all.front().value);
  for (std::size_t i = 1; i < all.size(); ++i)
    out += "; then as " + score_words(all[i].value) +
           (all[i].reason.empty() ? "" : " (" + clean(all[i].reason) + ")");
  return out + ".";
}

bool was_changed(const std::vector<telling>& all) {
  return std::any_of(all.begin(), all.end(),
                     [&](const telling& one) { return one.value != all.front().value; });
}

// When it was scored: the first telling, since a later one tells of the same moment.
instant scored_at(const making& m, const sample_state& tube) {
  if (tube.symptom_events.empty()) return tube.taken->closed;
  return event_of(m, tube.symptom_events.front()).at.wall;
}

value performer_of(const making& m, const scored& at) {
  if (!at.by || at.by->self) return array{reference(m, "patient")};
  const std::string who = m.with_name ? clean(at.by->who) : "";
  return array{object{
      {"display", who.empty() ? "another person, for the patient" : who + ", for the patient"}}};
}

// Whether this sample's scores came with a tube that was exchanged for another.
bool was_exchanged(const making& m, sample_number n) {
  return std::any_of(m.s.corrections.begin(), m.s.corrections.end(), [&](const auto& c) {
    const auto* tube = std::get_if<right_tube>(&c.what.to);
    return tube != nullptr && c.both_blown && (c.sample == n || tube->really == n);
  });
}

std::string scale_words(const making& m, const symptom& what) {
  return fmt::format("{}, scored from {} to {}", what.text, m.s.test->score_least,
                     m.s.test->score_most);
}

std::vector<std::string> notes_of(const scored& at, const std::vector<telling>& all) {
  std::vector<std::string> out{at.note, history_words(all)};
  if (at.exchanged)
    out.emplace_back("Corrected: told for another tube, and exchanged together with it.");
  if (at.by && !at.by->self) out.emplace_back("Scored by another person for the patient.");
  return out;
}

scored scored_with(const making& m, sample_number n) {
  const sample_state& tube = m.s.of(n);
  scored out;
  out.part = score_part(n, "");
  out.name = tube_name(m, n);
  if (tube.symptoms) out.scores = tube.symptoms->scores;
  out.events = tube.symptom_events;
  out.by = tube.scored_by;
  out.at = scored_at(m, tube);
  out.exchanged = was_exchanged(m, n);
  if (tube.taken) out.specimen = n;
  return out;
}

scored scored_after(const making& m, score_time t) {
  const scores_after& told = m.s.of(t);
  scored out;
  out.part = score_part(t, "");
  out.name = name_after(m, t);
  out.scores = told.told->scores;
  out.events = told.events;
  out.by = told.scored_by;
  out.at = told.at->wall;
  out.note = std::string("Scored ") + words_of(t) + "; belongs to no tube.";
  return out;
}

resource score_of(const making& m, const scored& at, const symptom& what) {
  const std::vector<telling> all = tellings(m, at, what.id);
  const symptom_score* now = score_in(at.scores, what.id);
  const std::string part = at.part + what.id;
  value out = begin(m, "Observation", part);
  out.set("identifier", array{identifier("score", at.name + "/" + what.id)});
  out.set("status", was_changed(all) || at.exchanged ? "corrected" : "final");
  out.set("code", concept_of(m, {"symptom." + what.id}, scale_words(m, what)));
  out.set("subject", reference(m, "patient"));
  out.set("effectiveDateTime", moment(m, at.at));
  out.set("performer", performer_of(m, at));
  if (now != nullptr && now->score) {
    out.set("valueInteger", *now->score);
  } else {
    out.set("dataAbsentReason",
            words_only(now != nullptr ? "Skipped: asked, and not scored" : "No score was told"));
  }
  out.set("note", notes(notes_of(at, all)));
  if (at.specimen) out.set("specimen", reference(m, tube_part(*at.specimen)));
  out.set("device", reference(m, "device"));
  return {part, std::move(out)};
}

} // namespace

std::string score_part(sample_number n, const std::string& symptom) {
  return fmt::format("score/{}/{}", n.value(), symptom);
}

std::string score_part(score_time t, const std::string& symptom) {
  return fmt::format("score/{}/{}", key_of(t), symptom);
}

std::vector<resource> scores_of(const making& m) {
  std::vector<resource> out;
  for (const report_tube& t : m.told.tubes) {
    const sample_state& tube = m.s.of(t.number);
    if (!tube.taken && tube.symptom_events.empty()) continue;
    for (const symptom& what : m.told.symptoms)
      out.push_back(score_of(m, scored_with(m, t.number), what));
  }
  for (const report_after& t : m.told.after) {
    for (const symptom& what : m.told.symptoms)
      out.push_back(score_of(m, scored_after(m, t.what), what));
  }
  return out;
}

} // namespace qb::fhir
