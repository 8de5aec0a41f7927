// The drink as a MedicationAdministration. What was offered stands in the medication's words; the
// dose is given only where all of it was drunk, since how much a part was nobody measured.
#include "core/fhir/resources.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::fhir {

namespace {

// "lactulose 10 g (syrup, 15 ml), in 200 ml water"
std::string offered_words(const making& m) {
  const substrate& sugar = m.s.test->sugar;
  std::string out = fmt::format("{} {} g", sugar.name, sugar.dose_g);
  for (const sugar_form& form : sugar.forms)
    if (form.form == m.s.planned->form)
      out += fmt::format(" ({}, {} {})", form.form, form.amount, form.unit);
  if (sugar.water_ml > 0) out += fmt::format(", in {} ml water", sugar.water_ml);
  return out;
}

const char* trouble_words(drink_mishap what) {
  switch (what) {
  case drink_mishap::slow: return "Drunk slowly";
  case drink_mishap::unfinished: return "Not finished";
  case drink_mishap::spilled: return "Some of it was spilled";
  case drink_mishap::vomited: return "Vomited";
  }
  QB_BELIEVE(false);
  return "";
}

const char* part_words(drink_part kept) {
  switch (kept) {
  case drink_part::all: return "all of the drink was kept";
  case drink_part::more_than_half: return "more than half of the drink was kept";
  case drink_part::less_than_half: return "less than half of the drink was kept";
  case drink_part::none: return "none of the drink was kept";
  }
  QB_BELIEVE(false);
  return "";
}

std::string trouble_note(const making& m, const reported_drink_trouble& t) {
  std::string out = fmt::format("{} at {}, {} In the end {}.", trouble_words(t.what),
                                moment(m, t.when), how_sentence(t.how), part_words(t.kept));
  if (!clean(t.words).empty()) out += " In their words: " + clean(t.words);
  return out;
}

// Whether what went down was less than the dose; what came up again went down before.
bool drunk_in_part(const state& s) {
  return !s.drank_all ||
         std::any_of(s.drink_troubles.begin(), s.drink_troubles.end(), [](const auto& t) {
           const bool short_of_it =
               t.what.what == drink_mishap::unfinished || t.what.what == drink_mishap::spilled;
           return short_of_it && t.what.kept != drink_part::all;
         });
}

// "stopped" where it was left unfinished; "unknown" where nobody told of its end.
const char* status_of(const state& s) {
  if (drunk_in_part(s)) return "stopped";
  return s.drink_end ? "completed" : "unknown";
}

std::vector<std::string> notes_of(const making& m) {
  const state& s = m.s;
  std::vector<std::string> out{"Start of the drink: " + how_sentence(s.drink_start_how)};
  if (!s.drink_end) out.emplace_back("Its end was not told.");
  if (s.drink_end && s.drink_end->at.wall < s.drink_start->at.wall)
    out.push_back("Its end as recorded lies before its start: " + moment(m, s.drink_end->at.wall));
  if (s.drink_end && !s.drank_all) out.emplace_back("Not all of it was drunk.");
  if (s.grid && s.grid->from_drink)
    out.emplace_back("Begun before tube 1: there is no tube from before the drink.");
  for (const noted_drink_trouble& t : s.drink_troubles)
    out.push_back(trouble_note(m, t.what));
  for (const noted_correction& c : s.corrections) {
    const auto* to = std::get_if<right_time>(&c.what.to);
    if (to == nullptr || c.sample || !c.time_was) continue;
    out.push_back(fmt::format("Corrected: a time was {}, and was put right to {}, {}{}",
                              moment(m, *c.time_was), moment(m, to->time), how_sentence(to->how),
                              because(c.what.reason)));
  }
  return out;
}

} // namespace

std::optional<resource> drink_of(const making& m) {
  const state& s = m.s;
  if (!s.test || !s.planned || !s.drink_start) return std::nullopt;
  value out = begin(m, "MedicationAdministration", drink_name);
  out.set("identifier", array{identifier("drink", test_of(m))});
  out.set("status", status_of(s));
  out.set("medicationCodeableConcept", words_only(offered_words(m)));
  out.set("subject", reference(m, "patient"));
  const auto end = s.drink_end ? std::optional(s.drink_end->at.wall) : std::nullopt;
  out.set("effectivePeriod", period(m, s.drink_start->at.wall, end));
  out.set("performer", array{object{{"actor", reference(m, "patient")}}});
  out.set("note", notes(notes_of(m)));
  if (!drunk_in_part(s))
    out.set("dosage",
            object{{"text", offered_words(m)}, {"dose", quantity(m, s.test->sugar.dose_g, "g")}});
  return resource{drink_name, std::move(out)};
}

} // namespace qb::fhir
