// The report's table: one row a tube, with what is to be said of it under its figures.
#include "app/lab/context/printable.hpp"
#include "app/lab/render/report_sheet.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

using texts = std::vector<std::string>;

std::string clock_of(const test_case& c, instant t) {
  return clock_text(c.place.civil_at(t));
}

std::string number_text(const std::optional<exact>& n, reading_range is = reading_range::within) {
  if (!n) return "";
  const char* sign = is == reading_range::below ? "<" : is == reading_range::above ? ">" : "";
  return fmt::format("{}{:.6g}", sign, n->rounded());
}

bool is_corrected(const test_case& c) {
  return std::any_of(c.tubes.begin(), c.tubes.end(),
                     [](const case_tube& t) { return t.gases && t.gases->corrected; });
}

// Where these stand among the columns.
constexpr std::size_t closed_column = 2;
constexpr std::size_t minute_column = 4;

std::vector<page::table_column> columns_of(const test_case& c, bool corrected) {
  using page::align;
  std::vector<page::table_column> out{{"Tube", 30, align::right},    {"Due", 40, align::right},
                                      {"Closed", 42, align::right},  {"How known", 56},
                                      {"Minute", 40, align::right},  {"H2 ppm", 36, align::right},
                                      {"CH4 ppm", 36, align::right}, {"CO2 %", 34, align::right}};
  if (corrected) {
    out.push_back({"H2 corr.", 38, align::right});
    out.push_back({"CH4 corr.", 38, align::right});
  }
  double left = page::a4_width - 2 * page::mm(14) + 10;
  for (const page::table_column& one : out)
    left -= one.width;
  const auto count = static_cast<double>(std::max<std::size_t>(c.test.symptoms.size(), 1));
  for (const symptom& s : c.test.symptoms)
    out.push_back({s.text, left / count, align::right});
  return out;
}

// "H2 12, CH4 3, CO2 4.8": what was measured.
std::string measured_words(const case_gases& g) {
  std::string out;
  const auto add = [&](const char* gas, const std::optional<exact>& n, reading_range is) {
    if (n) out += fmt::format("{}{} {}", out.empty() ? "" : ", ", gas, number_text(n, is));
  };
  add("H2", g.raw.h2_ppm, g.raw.h2_is);
  add("CH4", g.raw.ch4_ppm, g.raw.ch4_is);
  add("CO2", g.raw.co2_pct, g.raw.co2_is);
  return out;
}

// What is to be said of one tube besides its figures.
std::string remarks(const test_case& c, const case_tube& t) {
  std::string out;
  const auto add = [&](const std::string& words) { out += (out.empty() ? "" : "; ") + words; };
  if (t.standing == tube_standing::missed) add("missed");
  if (t.standing == tube_standing::late || t.standing == tube_standing::early)
    add(fmt::format("{} {}", length_in_words(*t.late),
                    t.standing == tube_standing::late ? "late" : "early"));
  if (!t.left_out.empty()) add("not in the curve: " + t.left_out);
  if (!t.undecided_by.empty()) add("decides nothing: " + t.undecided_by);
  for (const case_gases& g : t.other_gases)
    add("read again, not used: " + measured_words(g));
  if (is_judged(c) && t.in_curve) {
    for (const judged_criterion& j : c.judged.criteria)
      if (j.says.decided && j.says.decided->minute == *t.minute) add("decides " + j.by->id);
  }
  if (!t.comment.empty()) add("\"" + printable(t.comment) + "\"");
  return out;
}

page::table_row row_of_tube(const test_case& c, const case_tube& t, bool corrected) {
  page::table_row out;
  const gas_reading* raw = t.gases ? &t.gases->raw : nullptr;
  out.cells = {fmt::format("{}", t.number),
               t.due ? clock_of(c, *t.due) : "",
               t.closed ? clock_of(c, *t.closed) : "",
               t.how,
               t.minute ? fmt::format("{:.1f}", t.minute->rounded()) : "",
               raw == nullptr ? "" : number_text(raw->h2_ppm, raw->h2_is),
               raw == nullptr ? "" : number_text(raw->ch4_ppm, raw->ch4_is),
               raw == nullptr ? "" : number_text(raw->co2_pct, raw->co2_is)};
  if (corrected) {
    const bool has = t.gases && t.gases->corrected;
    out.cells.push_back(has ? fmt::format("{:.1f}", t.gases->h2 ? t.gases->h2->rounded() : 0) : "");
    out.cells.push_back(has ? fmt::format("{:.1f}", t.gases->ch4 ? t.gases->ch4->rounded() : 0)
                            : "");
    if (has && !t.gases->h2) out.cells[out.cells.size() - 2].clear();
    if (has && !t.gases->ch4) out.cells.back().clear();
  }
  for (const auto& score : t.scores)
    out.cells.push_back(score ? fmt::format("{}", *score) : "-");
  out.below = remarks(c, t);
  return out;
}

// Scores that belong to no tube stand in the columns of the symptoms, which are the last.
page::table_row row_after(const test_case& c, const case_after& t, std::size_t columns) {
  page::table_row out;
  out.cells.resize(columns - t.scores.size());
  out.cells[0] = paper_row_of(t.what);
  out.cells[closed_column] = clock_of(c, t.given);
  out.cells[minute_column] = fmt::format("{:.1f}", t.minute.rounded());
  for (const auto& score : t.scores)
    out.cells.push_back(score ? fmt::format("{}", *score) : "-");
  out.below = std::string("scored ") + words_of(t.what);
  if (!t.comment.empty()) out.below += "; \"" + printable(t.comment) + "\"";
  return out;
}

std::string area_text(const char* gas, const curve_area& a) {
  if (!a.total)
    return fmt::format("{} not enough readings, or one outside the analyser's range", gas);
  const std::string above = a.above_baseline
                                ? fmt::format("{:.0f} net of the baseline", *a.above_baseline)
                                : "no baseline";
  return fmt::format("{} {:.0f} ({})", gas, *a.total, above);
}

texts table_notes(const test_case& c, const lab_profile& profile) {
  texts out;
  out.push_back(c.log || c.code
                    ? "Minutes are elapsed time, shown to a tenth; a tube closed on time is judged "
                      "as the sample of its due minute, any other at its own. A dash is a score "
                      "that was not given."
                    : "Times are patient-written, to the minute: each minute may be off by one.");
  if (c.code)
    out.back() += " They are of the code, in whole seconds: each may be off by one second.";
  if (const auto tenths = profile.receiving.co2_reference_tenths; tenths && is_corrected(c))
    out.back() += fmt::format(" Corrected = measured x {}.{} / measured CO2 % ({}).", *tenths / 10,
                              *tenths % 10, profile.receiving.co2_why.source);
  out.push_back("Area under the curve by trapezoid, ppm x min: " + area_text("H2", c.judged.h2) +
                "; " + area_text("CH4", c.judged.ch4) + ".");
  return out;
}

} // namespace

void fill_table(const test_case& c, const lab_profile& profile, page::report_sheet& out) {
  const bool corrected = is_corrected(c);
  out.columns = columns_of(c, corrected);
  for (const case_tube& t : c.tubes)
    out.rows.push_back(row_of_tube(c, t, corrected));
  for (const case_after& t : c.after)
    out.rows.push_back(row_after(c, t, out.columns.size()));
  out.under_table = table_notes(c, profile);
}

} // namespace qb::lab
