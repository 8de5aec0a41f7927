// The sample rows as CSV (RFC 4180).
#include "core/base/text.hpp"
#include "core/base/visible.hpp"
#include "core/session/scores_after.hpp"
#include "core/sheet/sheet.hpp"
#include "core/time/zone.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/core.h>
#include <iterator>

namespace qb::inline sheets {

namespace {

using row = std::vector<std::string>;

// A count as every spreadsheet shows it again.
bool is_plain_count(const std::string& text) {
  constexpr std::size_t most_digits = 15; // a spreadsheet's numbers are exact up to here
  const bool digits = text.find_first_not_of("0123456789") == std::string::npos;
  return digits && text.size() <= most_digits && (text[0] != '0' || text.size() == 1);
}

// Whether a spreadsheet takes a text for a number, a date, a time or a truth, and so shows another:
// 007, 1E5, 4-7, 1/2, TRUE. Months in words are guessed by language and are not looked for.
bool is_guessed(const std::string& text) {
  std::string lower = text;
  for (char& c : lower)
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  if (lower == "true" || lower == "false") return true;
  return lower.find_first_of("0123456789") != std::string::npos &&
         lower.find_first_not_of("0123456789.,:/%+-e ") == std::string::npos &&
         !is_plain_count(text);
}

void add_scores(const state& s, const std::vector<symptom_score>& given, row& out) {
  for (const auto& score : scores_by_symptom(*s.test, given))
    out.push_back(score ? fmt::format("{}", *score) : "");
}

row sample_cells(const state& s, sample_number n, const clock_reading& now) {
  const sample_state& t = s.of(n);
  const instant anchor = s.grid ? s.grid->anchor.wall : s.planned->what.start;
  row out{s.person ? csv_words(s.person->kit_number) : "", s.test->id,
          s.rehearsal() ? "rehearsal" : "test", fmt::format("{}", n.value()),
          rfc3339_utc(anchor + s.test->offset_of(n))};
  if (t.taken && s.grid) {
    out.push_back(rfc3339_utc(t.taken->closed));
    out.push_back(civil_text(shown_time(t.taken->closed, t.taken->offset)));
    out.emplace_back(key_of(t.taken->how));
    // As a count, not a text: a minus sign here is a number's and stays.
    out.push_back(fmt::format(
        "{}", std::chrono::duration_cast<std::chrono::seconds>(lateness(s, n)).count()));
    // What went wrong with the breath that counts; one that was blown again is in the log.
    const noted_spoil* spoil = spoil_of(s, *t.taken);
    out.push_back(spoil == nullptr ? "" : csv_words(spoil->what.what));
  } else {
    out.insert(out.end(), {"", "", is_missed(s, n, now) ? "missed" : "", "", ""});
  }
  add_scores(s, t.symptoms ? t.symptoms->scores : std::vector<symptom_score>{}, out);
  out.push_back(t.symptoms ? csv_words(t.symptoms->comment) : "");
  return out;
}

row cells_after(const state& s, score_time t, duration due) {
  const scores_after& told = s.of(t);
  row out{s.person ? csv_words(s.person->kit_number) : "",
          s.test->id,
          s.rehearsal() ? "rehearsal" : "test",
          key_of(t),
          rfc3339_utc(s.grid->anchor.wall + due),
          told.given() ? rfc3339_utc(told.at->wall) : "",
          told.given() ? civil_text(shown_time(told.at->wall, told.at->offset)) : "",
          "",
          "",
          ""};
  add_scores(s, told.told ? told.told->scores : std::vector<symptom_score>{}, out);
  out.push_back(told.told ? csv_words(told.told->comment) : "");
  return out;
}

bool is_number(const std::string& text) {
  const std::size_t from = !text.empty() && text[0] == '-' ? 1 : 0;
  return text.size() > from && text.find_first_not_of("0123456789", from) == std::string::npos;
}

// What a spreadsheet takes for the beginning of a formula; the last four are of full width.
bool begins_formula(char32_t c) {
  constexpr char32_t beginnings[] = {U'=', U'+', U'-', U'@', U'\t', 0xFF1D, 0xFF0B, 0xFF0D, 0xFF20};
  return std::find(std::begin(beginnings), std::end(beginnings), c) != std::end(beginnings);
}

// With an apostrophe before what would be a formula: at the beginning, and wherever a spreadsheet
// that takes another mark for the separator, or does not see the quotes, would begin a cell.
std::string without_formulas(const std::string& text) {
  std::string out;
  bool begins = true; // a cell begins here, perhaps after blanks or a quote
  for (const std::string& letter : characters(text)) {
    std::size_t at = 0;
    const char32_t c = next_character(letter, at);
    if (begins && begins_formula(c)) out += '\'';
    begins = c == U';' || c == U'\t' || c == U'\n' || (begins && (c == U' ' || c == U'"'));
    out += letter;
  }
  return out;
}

} // namespace

std::string csv_cell(const std::string& text) {
  std::string safe = is_number(text) ? text : without_formulas(visible(text));
  if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
  std::string quoted = "\"";
  for (const char c : safe)
    quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

std::string csv_words(const std::string& text) {
  return is_guessed(text) ? "'" + text : text;
}

std::string csv_row(const std::vector<std::string>& cells) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i)
    out += (i == 0 ? "" : ",") + csv_cell(cells[i]);
  return out + "\r\n";
}

std::string sheet_csv(const state& s, const clock_reading& now) {
  QB_BELIEVE(s.planned && s.test);
  row heads{"kit_number", "protocol",     "kind",      "sample", "due_utc",
            "closed_utc", "closed_local", "how_known", "late_s", "spoiled"};
  for (const symptom& x : s.test->symptoms)
    heads.push_back(x.id);
  heads.emplace_back("comment");
  std::string out = csv_row(heads);
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    out += csv_row(sample_cells(s, sample_number::from_index(i), now));
  for (const score_time t : both_score_times) {
    if (const auto due = due_since_anchor(s, t)) out += csv_row(cells_after(s, t, *due));
  }
  return out;
}

} // namespace qb::inline sheets
