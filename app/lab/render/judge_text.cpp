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

std::string minutes_words(const std::vector<exact>& all) {
  std::string out;
  for (const exact& m : all)
    out += (out.empty() ? "" : ", ") + m.text();
  return out;
}

// How it would come out otherwise, as a part of a list; nothing where it would not.
void say_if_other(const std::string& how, answer would_be, answer is, std::string& out) {
  if (would_be == is) return;
  out += fmt::format("{}{} it {}", out.empty() ? "" : "; ", how, answer_words(would_be));
}

std::string area_words(const char* gas, const curve_area& a) {
  if (!a.total) return fmt::format("  {}  not enough readings\n", gas);
  const std::string net = a.above_baseline
                              ? fmt::format("net of the baseline {:.1f}", *a.above_baseline)
                              : std::string("no baseline");
  return fmt::format("  {}  {:.1f}, {}\n", gas, *a.total, net);
}

std::string head_words(const judgement& j, const curve& c, const std::string& test) {
  std::string out = fmt::format("{}  {} samples", test, c.size());
  if (!c.empty())
    out += fmt::format(", minute {} to {}", c.front().minute.text(), c.back().minute.text());
  return out + fmt::format("\nMinutes count from time zero as they are given; window slack {} min, "
                           "the laboratory's own.\n",
                           j.slack.text());
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

std::string firmness_words(const firmness& f, answer is) {
  const std::string noise =
      f.readings_noise ? "" : " How precise a level is, is not known: no noise was tried.";
  if (f.firm) return "Firm: nothing that was tried changes it." + noise;
  std::string out;
  say_if_other("without the slack", f.strict.what, is, out);
  say_if_other("at nominal times", f.nominal_times, is, out);
  say_if_other("from the lowest earlier value", f.lowest_earlier.value_or(is), is, out);
  say_if_other("within the readings' noise", f.readings_noise.value_or(is), is, out);
  say_if_other("without the sample at minute " + minutes_words(f.needs), f.without_one_sample, is,
               out);
  say_if_other("within the precision of the times", f.within_precision.value_or(is), is, out);
  say_if_other("by the readings not corrected for CO2", f.uncorrected.value_or(is), is, out);
  say_if_other("without the samples low in CO2", f.without_low_co2.value_or(is), is, out);
  for (const answer_by_reading& o : f.other_readings)
    say_if_other(fmt::format("by the other reading of tube {}", o.tube), o.says, is, out);
  for (const other_verdict& o : f.others)
    say_if_other("by " + o.by->id + ", published for " + o.by->published_for + ",", o.says.what, is,
                 out);
  if (!f.earlier_gaps.empty())
    out += (out.empty() ? "" : "; ") + std::string("samples due earlier are missing");
  return "Not firm: " + out + "." + noise;
}

std::string low_co2_words(const judged_criterion& j) {
  if (!j.low_co2) return "";
  return fmt::format("The CO2 of that sample is low ({} %): perhaps not alveolar air.",
                     j.low_co2->text());
}

std::string judge_text(const judgement& j, const curve& c, const std::string& test) {
  std::string out = head_words(j, c, test);
  for (const judged_criterion& one : j.criteria) {
    out += fmt::format("\n{}  {}\n", one.by->id, answer_words(one.says.what));
    add_wrapped(one.reason, out);
    if (one.low_co2) add_wrapped(low_co2_words(one), out);
    if (j.slack != exact())
      add_wrapped(fmt::format("Strictly: {}.", answer_words(one.how_firm.strict.what)), out);
    add_wrapped(firmness_words(one.how_firm, one.says.what), out);
    add_wrapped(fmt::format("Published for {}: {}.", one.by->published_for, citation_of(*one.by)),
                out);
    if (const pooled_accuracy* a = accuracy_for(*one.by, test))
      add_wrapped(accuracy_words(*one.by, *a), out);
  }
  out += "\nFlags\n";
  for (const flag& f : j.flags)
    out += fmt::format("  {}  {}\n", f.id, f.reason);
  if (j.flags.empty()) out += "  none\n";
  out += "\nAreas, ppm x min\n" + area_words("H2 ", j.h2) + area_words("CH4", j.ch4);
  return out;
}

} // namespace qb::lab
