// The words of a judgement. It says whether a criterion is met, never what a person has.
#include "app/lab/render/judge_text.hpp"

#include "app/lab/context/printable.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

constexpr std::size_t line_width = 78;
constexpr std::size_t indent = 4;

void add_wrapped(const std::string& text, std::string& out) {
  for (const std::string& line : wrapped(text, line_width - indent))
    out += std::string(indent, ' ') + line + "\n";
}

// What was changed, as the beginning of a clause: "with one reading off by up to 3 ppm or 10 %".
std::string change_words(const turn& t, const judging_terms& by, exact precision) {
  switch (t.by) {
  case change::slack: return fmt::format("without the window slack of {} min", by.slack.text());
  case change::timing:
    return fmt::format("with times off by up to {} min",
                       (exact::minutes_of(by.plausible->clock) + precision).text());
  case change::readings:
    return fmt::format("with one reading off by up to {} ppm or {} %", by.plausible->reading_ppm,
                       exact(by.plausible->reading_permille).tenth().text());
  case change::lowest_earlier: return "from the lowest earlier value";
  case change::uncorrected: return "by the readings not corrected for CO2";
  case change::low_co2: return "without the samples low in CO2";
  case change::other_reading: return fmt::format("by the other reading of tube {}", *t.tube);
  case change::implausible:
    return fmt::format("without the sample at minute {}, which stands out from both beside it",
                       t.minute->text());
  case change::gap: break; // told together
  }
  QB_BELIEVE(false);
  return "";
}

std::string turn_words(const turn& t, const judging_terms& by, exact precision) {
  return change_words(t, by, precision) + " it " + answer_words(t.to);
}

std::string area_words(const char* gas, const curve_area& a) {
  if (!a.total)
    return fmt::format("  {}  not enough readings, or one outside the analyser's range\n", gas);
  const std::string net = a.above_baseline
                              ? fmt::format("net of the baseline {:.1f}", *a.above_baseline)
                              : std::string("no baseline");
  return fmt::format("  {}  {:.1f}, {}\n", gas, *a.total, net);
}

std::string head_words(const judgement& j, const curve& c, const std::string& test) {
  std::string out = fmt::format("{}  {} samples", test, c.size());
  if (!c.empty())
    out += fmt::format(", minute {} to {}", c.front().minute.text(), c.back().minute.text());
  out += fmt::format("\nMinutes count from time zero as they are given; window slack {} min, "
                     "the laboratory's own.\n",
                     j.slack.text());
  if (j.corrected) out += correction_words(j) + "\n";
  for (const exact& minute : j.undeciding)
    out += fmt::format("The sample at minute {} decides nothing.\n", minute.text());
  return out;
}

} // namespace

const char* answer_words(answer a) {
  switch (a) {
  case answer::meets: return "meets the criterion";
  case answer::does_not_meet: return "does not meet the criterion";
  case answer::cannot_be_determined: return "cannot be determined";
  }
  QB_BELIEVE(false);
  return "";
}

std::string firmness_words(const firmness& f, answer is, const judging_terms& by, exact precision) {
  if (is == answer::cannot_be_determined) return "Not firm: there is no answer.";
  if (f.tried.empty()) return "How firm is not known: the laboratory names no plausible changes.";
  if (f.firm) return "Firm: no plausible change turns it.";
  std::string out;
  std::string missing;
  for (const turn& t : f.turns) {
    if (t.by == change::gap)
      missing += (missing.empty() ? "" : ", ") + t.minute->text();
    else
      out += (out.empty() ? "" : "; ") + turn_words(t, by, precision);
  }
  if (!missing.empty())
    out += fmt::format("{}no sample counts at minute {}, where one was due and might have met it",
                       out.empty() ? "" : "; ", missing);
  return "Not firm: " + out + ".";
}

std::string strict_words(const firmness& f, answer is) {
  if (f.strict.what == is) return "";
  return fmt::format("By the strict minute, without on-time bounds and slack, it {}.",
                     answer_words(f.strict.what));
}

std::string others_words(const firmness& f) {
  std::string out;
  for (const other_verdict& o : f.others)
    out += fmt::format("{}Beside it {}, published for {}: {}.", out.empty() ? "" : " ", o.by->id,
                       o.by->published_for, answer_words(o.says.what));
  return out;
}

std::string correction_words(const judgement& j) {
  if (!j.corrected) return "";
  return *j.corrected ? "Corrected for CO2 where it was measured."
                      : "CO2 was measured; nothing was corrected by it here: the gases are judged "
                        "as they stand.";
}

std::string low_co2_words(const judged_criterion& j) {
  if (!j.low_co2) return "";
  return fmt::format("The CO2 of that sample is low ({} %): perhaps not alveolar air.",
                     j.low_co2->text());
}

std::string judge_text(const judgement& j, const curve& c, const test_judging& test,
                       exact precision) {
  std::string out = head_words(j, c, test.test);
  for (const judged_criterion& one : j.criteria) {
    out += fmt::format("\n{}  {}\n", one.by->id, answer_words(one.says.what));
    add_wrapped(one.reason, out);
    if (one.low_co2) add_wrapped(low_co2_words(one), out);
    for (const std::string& line :
         {firmness_words(one.how_firm, one.says.what, test.terms, precision),
          strict_words(one.how_firm, one.says.what), others_words(one.how_firm)})
      if (!line.empty()) add_wrapped(line, out);
    add_wrapped(fmt::format("Published for {}: {}.", one.by->published_for, citation_of(*one.by)),
                out);
    if (const pooled_accuracy* a = accuracy_for(*one.by, test.sugar))
      add_wrapped(accuracy_words(*one.by, *a), out);
  }
  for (const unjudged_gas& u : j.unjudged) {
    out += "\n";
    for (const std::string& line : wrapped(unjudged_words(u) + ".", line_width))
      out += line + "\n";
  }
  out += "\nFlags\n";
  for (const flag& f : j.flags)
    out += fmt::format("  {}  {}\n", f.id, f.reason);
  if (j.flags.empty()) out += "  none\n";
  out += "\nAreas, ppm x min\n" + area_words("H2 ", j.h2) + area_words("CH4", j.ch4);
  return out;
}

} // namespace qb::lab
