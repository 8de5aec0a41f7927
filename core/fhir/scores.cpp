// One Observation a symptom and sample. What was skipped is absent, never 0; what was told again or
// put right is `corrected`, and its notes say what stood before.
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

const symptom_score* score_in(const reported_symptoms& told, const std::string& symptom) {
  const auto at = std::find_if(told.scores.begin(), told.scores.end(),
                               [&](const symptom_score& one) { return one.id == symptom; });
  return at == told.scores.end() ? nullptr : &*at;
}

// All that was told of one symptom at one sample, in order.
std::vector<telling> tellings(const making& m, const sample_state& tube,
                              const std::string& symptom) {
  std::vector<telling> out;
  for (const std::int64_t seq : tube.symptom_events) {
    const payload& what = event_of(m, seq).what;
    if (const auto* told = std::get_if<reported_symptoms>(&what)) {
      if (const symptom_score* one = score_in(*told, symptom)) out.push_back({one->score, ""});
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

value performer_of(const making& m, const sample_state& tube) {
  if (!tube.scored_by || tube.scored_by->self) return array{reference(m, "patient")};
  const std::string who = m.with_name ? clean(tube.scored_by->who) : "";
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

std::vector<std::string> notes_of(const making& m, sample_number n,
                                  const std::vector<telling>& all) {
  const sample_state& tube = m.s.of(n);
  std::vector<std::string> out{history_words(all)};
  if (was_exchanged(m, n))
    out.emplace_back("Corrected: told for another tube, and exchanged together with it.");
  if (tube.scored_by && !tube.scored_by->self)
    out.emplace_back("Scored by another person for the patient.");
  return out;
}

resource score_of(const making& m, sample_number n, const symptom& what) {
  const sample_state& tube = m.s.of(n);
  const std::vector<telling> all = tellings(m, tube, what.id);
  const symptom_score* now = tube.symptoms ? score_in(*tube.symptoms, what.id) : nullptr;
  value out = begin(m, "Observation", score_part(n, what.id));
  out.set("identifier", array{identifier("score", tube_name(m, n) + "/" + what.id)});
  out.set("status", was_changed(all) || was_exchanged(m, n) ? "corrected" : "final");
  out.set("code", concept_of(m, {"symptom." + what.id}, scale_words(m, what)));
  out.set("subject", reference(m, "patient"));
  out.set("effectiveDateTime", moment(m, scored_at(m, tube)));
  out.set("performer", performer_of(m, tube));
  if (now != nullptr && now->score) {
    out.set("valueInteger", *now->score);
  } else {
    out.set("dataAbsentReason",
            words_only(now != nullptr ? "Skipped: asked, and not scored" : "No score was told"));
  }
  out.set("note", notes(notes_of(m, n, all)));
  if (tube.taken) out.set("specimen", reference(m, tube_part(n)));
  out.set("device", reference(m, "device"));
  return {score_part(n, what.id), std::move(out)};
}

} // namespace

std::string score_part(sample_number n, const std::string& symptom) {
  return fmt::format("score/{}/{}", n.value(), symptom);
}

std::vector<resource> scores_of(const making& m) {
  std::vector<resource> out;
  for (const report_tube& t : m.told.tubes) {
    const sample_state& tube = m.s.of(t.number);
    if (!tube.taken && tube.symptom_events.empty()) continue;
    for (const symptom& what : m.told.symptoms)
      out.push_back(score_of(m, t.number, what));
  }
  return out;
}

} // namespace qb::fhir
