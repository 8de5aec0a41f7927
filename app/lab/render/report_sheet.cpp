// The report's facts, table and answers, field by field.
#include "app/lab/render/report_sheet.hpp"

#include "app/lab/context/printable.hpp"
#include "app/lab/render/judge_text.hpp"
#include "core/case/concluding.hpp"
#include "core/receiving/specimens.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/core.h>

namespace qb::lab {

namespace {

using page::report_sheet;
using texts = std::vector<std::string>;

// Decimals cut, not rounded, after two digits: what is just under a threshold stays under it.
std::string cut(const std::string& text) {
  constexpr int shown = 2;
  std::string out;
  int digits = -1; // after the point; -1: before it
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool digit = std::isdigit(static_cast<unsigned char>(text[i])) != 0;
    const bool point = text[i] == '.' && i > 0 && i + 1 < text.size() &&
                       std::isdigit(static_cast<unsigned char>(text[i - 1])) != 0 &&
                       std::isdigit(static_cast<unsigned char>(text[i + 1])) != 0;
    if (point)
      digits = 0;
    else if (!digit)
      digits = -1;
    if (digit && digits >= 0 && ++digits > shown) continue;
    out += text[i];
  }
  return out;
}

std::string clock_of(const test_case& c, instant t) {
  return clock_text(c.place.civil_at(t));
}

std::vector<sheet_fact> who_facts(const test_case& c) {
  std::vector<sheet_fact> out{{"Kit", c.kit}};
  if (!c.log) return out;
  const report& r = *c.log;
  if (!r.name.empty()) out.insert(out.begin(), {"Name", printable(r.name)});
  if (r.birth_date) out.push_back({"Born", long_date(*r.birth_date)});
  if (!r.doctor.empty()) out.push_back({"Asked for by", printable(r.doctor)});
  return out;
}

std::string drink_text(const test_case& c) {
  if (!c.drink_start) return "not recorded";
  if (!c.drink_end) return clock_of(c, *c.drink_start) + ", end not recorded";
  const bool all = !c.log || c.log->drank_all;
  return fmt::format("{} to {}{}", clock_of(c, *c.drink_start), clock_of(c, *c.drink_end),
                     all ? "" : ", not all");
}

std::string times_words(const test_case& c) {
  if (c.log) return "of the patient's device";
  return c.code ? "from the code, log not here" : paper_words;
}

std::vector<sheet_fact> test_facts(const test_case& c) {
  const std::string day =
      c.zero_at ? long_date(date_of(c.place.civil_at(*c.zero_at))) : "not known";
  const std::string zero =
      c.zero_at ? fmt::format("{}, {}", time_zero_text(c.zero), clock_of(c, *c.zero_at))
                : std::string("not known");
  return {{"Test", printable(c.test.title)},
          {"Day", day},
          {"Drink", drink_text(c)},
          {"Minutes count from", zero},
          {"Times", times_words(c)}};
}

std::string washout_text(const report_washout& w) {
  std::string out = w.name;
  if (!w.answer)
    out += " not answered";
  else if (*w.answer == washout_answer::cannot_stop)
    out += " goes on";
  else if (*w.answer == washout_answer::unknown)
    out += " not known";
  else if (w.last)
    out += " last on " + long_date(*w.last);
  if (w.kept_days) out += fmt::format(" ({} of {} days)", *w.kept_days, w.asked_days);
  if (!w.agreed_by.empty())
    out += fmt::format(", agreed by {} ({})", printable(w.agreed_by), w.agreed_as);
  return out;
}

texts preparation_lines(const test_case& c) {
  if (c.code)
    return {"Not known: the record came by code alone, and a code holds nothing of it but that a "
            "slip was told, or that the start was not kept."};
  if (!c.log) return {"Not known: the record came on paper alone."};
  texts out;
  std::string begun;
  for (const report_beginning& b : c.log->beginnings)
    begun += (begun.empty() ? "Confirmed as begun: " : "; ") + b.name + " " +
             day_and_time(b.at, c.log->anchor.value_or(b.at), c.place);
  out.push_back(begun.empty() ? "No window of the preparation was confirmed as it began."
                              : begun + ".");
  std::string told;
  std::string none;
  for (const report_washout& w : c.log->washouts) {
    if (w.answer == washout_answer::never && !w.last)
      none += (none.empty() ? "None of: " : ", ") + w.name;
    else
      told += (told.empty() ? "Told: " : "; ") + washout_text(w);
  }
  if (!told.empty()) out.push_back(told + ".");
  if (!none.empty()) out.push_back(none + ".");
  return out;
}

std::string deciding_text(const test_case& c, const judged_criterion& j) {
  const auto at = j.says.deciding();
  const auto tube = at ? tube_at(c, at->minute) : std::nullopt;
  if (!tube) return {};
  return fmt::format(" {} tube {}.", j.says.decided ? "Decided by" : "The greatest is of", *tube);
}

// As a sentence begins.
std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

page::report_answer answer_of(const test_case& c, const judged_criterion& j) {
  page::report_answer out;
  out.head = capital(answer_words(j.says.what));
  out.title = fmt::format("{} ({})", j.by->title, j.by->id);
  out.lines.push_back(capital(cut(j.reason)) + "." + deciding_text(c, j));
  if (j.low_co2) out.lines.back() += " " + low_co2_words(j);
  out.lines.push_back(cut(firmness_words(j.how_firm, j.says.what, c.by.terms, c.precision)));
  for (const std::string& more : {strict_words(j.how_firm, j.says.what), others_words(j.how_firm)})
    if (!more.empty()) out.lines.back() += " " + more;
  out.lines.push_back(
      fmt::format("Published for {}: {}.", j.by->published_for, citation_of(*j.by)));
  if (const pooled_accuracy* a = accuracy_for(*j.by, c.test.sugar.name))
    out.lines.push_back(accuracy_words(*j.by, *a));
  return out;
}

texts chart_notes(const test_case& c) {
  texts out{"Hydrogen is the whole line with filled circles, methane the dashed line with open "
            "squares. Dotted: what a criterion asks, and its window's last minute; grey: the "
            "window slack, this laboratory's own. A cross is a tube that was not taken; no line is "
            "drawn over it."};
  for (const judged_criterion& j : c.judged.criteria) {
    if (j.by->h2_weight + j.by->ch4_weight > 1)
      out.push_back(j.by->id + " weighs both gases together; it has no line.");
  }
  return out;
}

std::string day_of(instant t) {
  return rfc3339_utc(t).substr(0, std::string("2027-04-12").size());
}

std::string joined(const texts& all) {
  constexpr std::size_t most = 6; // in a box at the head of a page; JSON has them all
  std::string out;
  for (std::size_t i = 0; i < std::min(all.size(), most); ++i)
    out += (out.empty() ? "" : "; ") + printable(all[i]);
  return out + (all.size() > most ? fmt::format("; and {} more", all.size() - most) : "");
}

std::string state_text(const kept_case& kept) {
  const test_case& c = kept.what;
  if (!c.since.empty())
    return fmt::format("DRAFT AGAIN. {} concluded on {} before this came: {}. It has to be read "
                       "again. It supports that reading and decides nothing.",
                       printable(c.concluded->by), day_of(c.concluded->at), joined(c.since));
  if (is_draft(c))
    return "DRAFT. No qualified person has read this yet. It supports their reading and decides "
           "nothing.";
  return fmt::format("Concluded by {} on {}. {} {}", printable(c.concluded->by),
                     day_of(c.concluded->at), printable(report_number_words(c)),
                     signed_words(kept.reader_seal));
}

// What record this rests on, and what was checked of it.
texts record_lines(const kept_case& kept) {
  const test_case& c = kept.what;
  if (c.code)
    return {fmt::format("From the code alone, made at event {} of the record; the log is not here.",
                        c.code->events),
            "Seal of the code: " + seal_words(kept.seal) + "."};
  if (!c.log) return {"Paper sheet entered by a person; no record of its own to check."};
  const std::size_t digits = std::string("0123456789ab").size();
  texts out{fmt::format("Timing record of {} events, {}, head {}. Signature: {}.", c.log->events,
                        c.log->matches_itself ? "matches itself" : "DOES NOT MATCH ITSELF",
                        c.log->head.substr(0, digits), evidence_text(kept.signature))};
  if (kept.beside) out.push_back("Code: " + beside_words(*kept.beside) + ".");
  return out;
}

// "run R-0412 (analyser A2, control passed), taken in by R. Ashdown on 2027-04-12"
std::string run_words(const gas_reading& r) {
  std::string more;
  for (const auto& [name, text] :
       {std::pair("analyser", &r.of.analyser), std::pair("calibration", &r.of.calibration),
        std::pair("control", &r.of.control)})
    if (!text->empty()) more += fmt::format("{}{} {}", more.empty() ? "" : ", ", name, *text);
  std::string out = r.of.run.empty() ? "a run without a name" : "run " + r.of.run;
  if (!more.empty()) out += " (" + more + ")";
  if (!r.by.empty()) out += ", taken in by " + r.by;
  if (r.taken_in) out += " on " + day_of(*r.taken_in);
  return printable(out);
}

// Of what the tubes were, how they lay, and in which runs they were measured.
texts specimen_lines(const kept_case& kept) {
  texts out;
  const kit_supply supply = supply_of(kept.received, kept.known.supply);
  if (!supply.lot.empty() || supply.expires)
    out.push_back(
        fmt::format("Kit of lot {}{}.", supply.lot.empty() ? "unknown" : supply.lot,
                    supply.expires ? ", last day of use " + long_date(*supply.expires) : ""));
  const auto& boxes = kept.received.arrivals;
  if (!boxes.empty() && !boxes.back().stored.empty())
    out.push_back("Tubes lay until they were posted, as told: " + boxes.back().stored + ".");
  texts runs;
  for (const case_tube& t : kept.what.tubes) {
    if (!t.gases || (t.gases->raw.by.empty() && t.gases->raw.of == reading_run{})) continue;
    const std::string one = run_words(t.gases->raw);
    if (std::find(runs.begin(), runs.end(), one) == runs.end()) runs.push_back(one);
  }
  if (!runs.empty()) out.push_back("Measured in " + joined(runs) + ".");
  return out;
}

texts foot_of(const test_case& c, const lab_profile& profile) {
  texts out;
  std::string as_of = rfc3339_utc(c.as_of).substr(0, std::string("2027-04-12T10:00").size());
  std::replace(as_of.begin(), as_of.end(), 'T', ' ');
  out.push_back(fmt::format("Kit {}. {}, {} ({}). As of {} UTC.", c.kit, profile.name,
                            profile.telephone, profile.telephone_hours, as_of));
  out.push_back("That a criterion is met, or not, is no diagnosis.");
  return out;
}

} // namespace

report_sheet report_sheet_of(const kept_case& kept, const lab_profile& profile) {
  const test_case& c = kept.what;
  report_sheet out;
  out.practice = kept.rehearsal;
  out.mark = kept.mark;
  out.draft = is_draft(c);
  out.title = "Breath test report";
  out.state = state_text(kept);
  out.who = who_facts(c);
  out.test = test_facts(c);
  out.preparation = preparation_lines(c);
  out.chart = chart_of(c);
  out.under_chart = chart_notes(c);
  fill_table(c, profile, out);
  if (is_judged(c)) {
    for (const judged_criterion& j : c.judged.criteria)
      out.answers.push_back(answer_of(c, j));
  } else {
    std::string rules;
    for (const std::string& one : c.cannot_be_used)
      rules += (rules.empty() ? "" : ", ") + one;
    out.barred = "Not judged: this test cannot be used (" + rules +
                 "), unless a named person sets that aside.";
  }
  out.axes = c.axes.words;
  for (const flag& f : c.judged.flags)
    out.flags.push_back(f.id + ": " + cut(f.reason));
  if (out.flags.empty()) out.flags.emplace_back("None.");
  out.findings = listed_findings(c);
  if (!out.draft) {
    out.conclusion = printable(printed_conclusion(*c.concluded));
    out.reader = printable(c.concluded->by);
    out.concluded_on = day_of(c.concluded->at);
  }
  if (!c.since.empty())
    out.before = fmt::format("Before: {} {}, {}.", printable(printed_conclusion(*c.concluded)),
                             printable(c.concluded->by), day_of(c.concluded->at));
  out.record = record_lines(kept);
  for (std::string& line : specimen_lines(kept))
    out.record.push_back(std::move(line));
  out.foot = foot_of(c, profile);
  return out;
}

} // namespace qb::lab
