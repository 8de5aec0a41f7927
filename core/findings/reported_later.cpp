// One small function a kind of what was told later. Nothing here says what a result would mean.
#include "core/findings/reported_later.hpp"

#include "core/session/now.hpp"
#include "core/session/scores_after.hpp"

#include <fmt/core.h>

namespace qb::inline findings {

namespace {

std::string clock_in(const zone& z, instant t) {
  return clock_text(z.civil_at(t));
}

std::string part_words(drink_part p) {
  switch (p) {
  case drink_part::all: return "all of it was kept";
  case drink_part::more_than_half: return "more than half was kept";
  case drink_part::less_than_half: return "less than half was kept";
  case drink_part::none: return "none of it was kept";
  }
  QB_BELIEVE(false);
  return "";
}

std::string mishap_words(drink_mishap m) {
  switch (m) {
  case drink_mishap::slow: return "drunk slowly";
  case drink_mishap::unfinished: return "not finished";
  case drink_mishap::spilled: return "spilled";
  case drink_mishap::vomited: return "vomited";
  }
  QB_BELIEVE(false);
  return "";
}

std::string score_words(const std::optional<int>& score) {
  return score ? fmt::format("{}", *score) : "none";
}

std::string symptom_words(const state& s, const std::string& id) {
  for (const symptom& x : s.test->symptoms) {
    if (x.id == id) return x.text;
  }
  return id;
}

std::string corrected_words(const state& s, const noted_correction& c, const zone& z) {
  const std::string what = c.sample  ? fmt::format("tube {}", c.sample->value())
                           : c.after ? words_of(*c.after)
                                     : std::string("the drink");
  if (const auto* time = std::get_if<right_time>(&c.what.to))
    return fmt::format("time of {} corrected from {} to {}", what,
                       c.time_was ? clock_in(z, *c.time_was) : "none", clock_in(z, time->time));
  if (const auto* tube = std::get_if<right_tube>(&c.what.to))
    return c.both_blown ? fmt::format("tubes {} and {} were swapped", c.sample->value(),
                                      tube->really.value())
                        : fmt::format("the breath told of tube {} went into tube {}",
                                      c.sample->value(), tube->really.value());
  const auto& score = std::get<right_score>(c.what.to);
  return fmt::format("{} {}{} corrected from {} to {}", symptom_words(s, score.symptom),
                     c.after ? "" : "at ", what, score_words(c.score_was),
                     score_words(score.score));
}

std::string signs_words(const std::string& when, const reported_red_flags& told) {
  std::string words = "warning signs told " + when + ":";
  for (const std::string& one : told.present)
    words += (words.back() == ':' ? " " : ", ") + one;
  return words;
}

void close_findings(const state& s, std::vector<finding>& out) {
  for (std::size_t i = 1; i < s.samples.size(); ++i) {
    if (!s.samples[i].taken) continue;
    const auto n = sample_number::from_index(i);
    const auto near = too_close_to(s, n, s.samples[i].taken->since_anchor);
    if (!near || n < *near) continue; // said once, of the later number
    out.push_back({"sample-close",
                   consequence::review,
                   n,
                   {s.of(*near).taken->seq, s.samples[i].taken->seq},
                   {near->value(), n.value()},
                   fmt::format("tubes {} and {} closed close together", near->value(), n.value())});
  }
}

} // namespace

void drink_course_findings(const state& s, const zone& z, std::vector<finding>& out) {
  if (s.grid && s.grid->from_drink)
    out.push_back(
        {"drink-first",
         consequence::review,
         {},
         {s.drink_start->seq},
         {},
         "the drink was begun before tube 1; its start is the time the tubes count from"});
  if (s.drink_start && s.drink_start_how != how_known::observed)
    out.push_back(
        {"drink-told",
         consequence::note,
         {},
         {s.drink_start->seq},
         {},
         fmt::format("start of the drink told afterwards ({})", words_of(s.drink_start_how))});
  for (const noted_drink_trouble& t : s.drink_troubles) {
    const bool whole = t.what.kept == drink_part::all;
    std::string words =
        fmt::format("the drink was {} at {} ({}); {}", mishap_words(t.what.what),
                    clock_in(z, t.what.when), words_of(t.what.how), part_words(t.what.kept));
    if (!t.what.words.empty()) words += ": " + t.what.words;
    out.push_back({std::string("drink-") + key_of(t.what.what),
                   whole ? consequence::note : consequence::review,
                   {},
                   {t.seq},
                   {},
                   std::move(words)});
  }
}

void reported_later_findings(const state& s, const zone& z, std::vector<finding>& out) {
  close_findings(s, out);
  for (const noted_correction& c : s.corrections) {
    const bool tube = std::holds_alternative<right_tube>(c.what.to);
    out.push_back({tube ? "tube-mixed-up" : "corrected",
                   tube ? consequence::review : consequence::note,
                   c.sample,
                   {c.what.seq, c.seq},
                   {},
                   corrected_words(s, c, z) + ": " + c.what.reason});
  }
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    const sample_state& t = s.samples[i];
    const auto n = sample_number::from_index(i);
    if (t.symptoms && t.scored_by && !t.scored_by->self)
      out.push_back(
          {"scored-for",
           consequence::note,
           n,
           t.symptom_events,
           {n.value()},
           fmt::format("symptoms at tube {} scored by somebody for the person", n.value()) +
               (t.scored_by->who.empty() ? "" : " (" + t.scored_by->who + ")")});
    if (!t.red_flags || t.red_flags->present.empty()) continue;
    out.push_back({"warning-signs",
                   consequence::review,
                   n,
                   t.symptom_events,
                   {n.value()},
                   signs_words(fmt::format("at tube {}", n.value()), *t.red_flags)});
  }
}

void scores_after_findings(const state& s, const clock_reading& now, std::vector<finding>& out) {
  for (const score_time t : both_score_times) {
    const scores_after& told = s.of(t);
    const std::string when = words_of(t);
    if (is_not_given(s, t, now))
      out.push_back({"scores-after-missing",
                     consequence::note,
                     {},
                     told.events,
                     {},
                     fmt::format("no symptoms scored {}", when)});
    if (told.given() && told.scored_by && !told.scored_by->self)
      out.push_back({"scored-for",
                     consequence::note,
                     {},
                     told.events,
                     {},
                     fmt::format("symptoms {} scored by somebody for the person", when) +
                         (told.scored_by->who.empty() ? "" : " (" + told.scored_by->who + ")")});
    if (told.red_flags && !told.red_flags->present.empty())
      out.push_back({"warning-signs",
                     consequence::review,
                     {},
                     told.events,
                     {},
                     signs_words(when, *told.red_flags)});
  }
}

} // namespace qb::inline findings
