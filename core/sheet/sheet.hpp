// What stands on a label and on the symptom and sample sheet, before any drawing.
// The window, the PDF, the CSV and the laboratory show the same lines because they ask here.
#pragma once

#include "core/findings/findings.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline sheets {

// One tube's label. `date` and `time` are empty until the tube was closed; they are the device's
// own clock at that moment, cut to the minute, and do not change if that clock is set later.
struct label_text {
  sample_number number{1};
  std::string name;
  std::string birth_date;
  std::string doctor;
  std::string kit_number;
  std::string offset; // "+15 min" after tube 1; "first" for tube 1
  std::string date;   // "6 April 2027"
  std::string time;   // "07:46"
  bool rehearsal{false};
  std::string birth_short; // "11 Feb 1957", as a label on paper has it
  std::string date_short;  // "6 Apr 2027"
  std::string how;         // how the time is known: "pressed", "told", "from memory"
};

// One row of the sheet.
struct sheet_row {
  sample_number number{1};
  std::string offset;
  std::string due;                 // "07:45", "00:15 (7 Apr)" where the day is not tube 1's
  std::string closed;              // "07:46", or empty
  std::string closed_day;          // "7 Apr" where that is not tube 1's day, else empty
  std::string how;                 // "pressed", "told", "from memory", or empty
  std::string late;                // "on time", "5 min 3 s late", "missed", or empty
  std::vector<std::string> scores; // by the protocol's symptoms; "-" where skipped or not asked yet
  std::string comment;
  std::vector<std::string> corrections; // "Time was 08:02, put right to 08:00: by another clock."
};

// Scores that belong to no tube.
struct sheet_after {
  score_time what{score_time::after_last};
  std::string name;   // "After the last tube"
  std::string offset; // "+3 h 30 min" after tube 1
  std::string due;    // as of a tube
  std::string given;  // when they were given, or empty
  std::vector<std::string> scores;
  std::string comment;
  std::vector<std::string> corrections;
};

// A line of "name: value".
struct sheet_fact {
  std::string name;
  std::string value;
};

// The sheet from its title to its foot, in the order it is drawn.
struct sheet_text {
  bool rehearsal{false};
  std::string title;
  std::vector<sheet_fact> first; // what the laboratory needs first: kit, test, date, tubes
  std::vector<sheet_fact> person;
  std::vector<sheet_fact> preparation; // windows, and washouts by their day, as planned
  std::vector<std::string> symptoms;   // heads of the score columns
  std::vector<sheet_row> rows;
  std::vector<sheet_after> after; // those the protocol asks for, from the drink on
  std::vector<std::string> told;  // findings in words
  std::vector<std::string> foot;  // intended use, clock, record's hash
};

// Every text below is cut from the state as it stands at `now`; `z` is the zone times are shown in.
[[nodiscard]] label_text label_of(const state& s, sample_number n);
[[nodiscard]] sheet_text sheet_of(const state& s, const clock_reading& now, const zone& z);

// "+15 min", "+1 h 30 min", or "first".
[[nodiscard]] std::string offset_text(const protocol& p, sample_number n);
// "Tubes 8 to 10 stay empty." of the kit's tubes after the last sample; empty where there is none.
[[nodiscard]] std::string empty_tubes_text(const protocol& p);
// "3, 5 and 8 to 10", of numbers that rise.
[[nodiscard]] std::string tubes_in_words(const std::vector<int>& tubes);
// "6 April 2027"
[[nodiscard]] std::string long_date(civil_date date);
// "6 Apr 2027": no other order of day and month can be read into it.
[[nodiscard]] std::string short_date(civil_date date);
// The civil time a moment showed on the device.
[[nodiscard]] civil_time shown_time(instant t, std::chrono::seconds offset);

// The rows as RFC 4180 CSV with a header row: one line a sample, CRLF ends, UTF-8. Scores that
// belong to no tube follow, with "after-last" or "later" as their sample and, as closed, when they
// were given. A cell that a spreadsheet would take for a formula gets a leading apostrophe.
[[nodiscard]] std::string sheet_csv(const state& s, const clock_reading& now);

// One CSV cell, quoted where RFC 4180 asks for it. It can become no formula, neither where commas
// part cells nor where semicolons or tabs do, and nothing in it is unseen (core/base/visible.hpp).
[[nodiscard]] std::string csv_cell(const std::string& text);
// A person's words or number for a cell: with a leading apostrophe where a spreadsheet would take
// them for a figure, a date or a truth and show something else (kit 007, a comment "1/2").
[[nodiscard]] std::string csv_words(const std::string& text);
// A row of such cells, with its line's end.
[[nodiscard]] std::string csv_row(const std::vector<std::string>& cells);

} // namespace qb::inline sheets
