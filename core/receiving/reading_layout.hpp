// How an analyser's own tables stand, described by data, so that nobody edits a file of raw
// readings: which column is what and in which unit, the lines above them, the marks in them.
//
// The description (JSON, assets/schema/readings-layout.schema.json):
//   format "quarterbreath-readings-layout", version 1
//   parted_by     "comma", "semicolon" or "tab": what stands between cells
//   decimal_mark  "point" or "comma", of every figure
//   moment        how a date with its time stands: "YYYY-MM-DD hh:mm", "DD.MM.YYYY hh:mm",
//                 "DD/MM/YYYY hh:mm" or "MM/DD/YYYY hh:mm", each with seconds if any
//   columns       the file's own names, in any case: kit and tube, or label (a tube's own, or a
//                 maker's code); measured_at, or day and time; mark, run, analyser, calibration and
//                 control where the table has them
//   gases         h2, ch4, co2: each a column and its unit ("ppm", "ppb", "pct", "permille"); one
//   of
//                 the first two at least
//   marks, controls, cells   what the file's words mean here: a list of {is, means}; a mark means
//                 "invalid" or "valid", a control "passed" or "failed", a gas's cell a figure as
//                 plain tables have it ("<1", ">200") or nothing
//   head          lines above the names that tell of the run: a list of {begins, is}, where `is` is
//                 run, analyser, calibration or control; other lines there are passed over
//   ends_with     the first cell of the line at which the table ends, where more stands below it
// Everything but format, version, parted_by, decimal_mark, moment, columns and gases may be left
// out.
#pragma once

#include "core/receiving/readings_table.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// A column of a gas, and how far its figures' points move to the left to be in our unit.
struct laid_out_gas {
  std::string ours;   // "h2_ppm"
  std::string column; // the file's own
  int places{0};
};

// The description as it was read.
struct reading_layout {
  char separator{','};
  char decimal_mark{'.'};
  std::string moment;                         // its form, as described
  std::map<std::string, std::string> columns; // ours to the file's own
  std::vector<laid_out_gas> gases;
  std::map<std::string, std::string> marks;
  std::map<std::string, std::string> controls;
  std::map<std::string, std::string> cells;
  std::vector<std::pair<std::string, std::string>> head; // how a line begins, and what it tells
  std::string ends_with;
};

// Reads it strictly; refuses unknown fields, two columns of one name, and a description that leaves
// out kit, tube, moment or every gas.
[[nodiscard]] result<reading_layout> read_reading_layout(std::string_view text);

// A file's table as a plain one: its cells under our names, figures with a decimal point and in our
// units, moments with the year first. Each row keeps its line and its text.
struct laid_out_table {
  table plain;
  std::map<std::string, std::string> run;   // of the lines above it: "analyser" and so on
  std::map<std::string, std::string> names; // ours to the file's own, for messages
  std::vector<refusal> refused;             // cells that the description does not fit, by line
};

// Refuses a text without a line of all those names.
[[nodiscard]] result<laid_out_table> lay_out(std::string_view text, const reading_layout& layout,
                                             std::size_t most_rows);

} // namespace qb::inline receiving
