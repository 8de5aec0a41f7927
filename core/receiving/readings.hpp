// A table of gas readings, as ordinary spreadsheets and instruments write one.
//
//   kit,tube,h2_ppm,ch4_ppm[,co2_pct],measured_at[,mark]     the header: these names, in any order
//   FV-2071,1,4,1,4.8,2027-04-09 10:30,                      one row a reading
//
// Cells are parted by commas, semicolons or tabs, whichever the header has; a first line "sep=;" is
// passed over. A number may have a decimal comma, within quotes where commas part the cells; one
// mark holds for the whole table (core/receiving/decimal_mark.hpp). Lines end in LF, CRLF or CR; a
// byte order mark, quotes, blanks around a cell, and rows and columns with nothing in them are no
// matter. `tube` is a sample's number, or a maker's code where a list of those is given.
// `measured_at` is 2027-04-09 10:30, with T and seconds if any, or 09.04.2027 10:30; a date with
// slashes means two days and is refused. An empty reading is one that is missing; "<1" and ">200"
// are kept as such. `mark` is "invalid" where the analyser said that, else empty.
// What run the readings are of stands in columns run, analyser, calibration and control ("passed"
// or "failed"), or once in lines of their own above the header ("run,R-0412"); a column goes
// before. A table that stands otherwise is described by data: core/receiving/reading_layout.hpp.
#pragma once

#include "core/curve/curve.hpp"
#include "core/protocol/kit_number.hpp"
#include "core/receiving/reading_layout.hpp"
#include "core/receiving/received.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// Which tube a manufacturer's code is printed on.
struct known_tube {
  std::string kit;
  int sample{1};
};
using tube_codes = std::map<std::string, known_tube>;

// Reads a list of them: the columns maker_code,kit,tube, in the same form. Refuses a code twice.
[[nodiscard]] result<tube_codes> read_tube_codes(std::string_view text);

// What a table comes to: readings in the file's order, or why not, a line each. With one refusal
// nothing is to be taken.
struct read_table {
  std::vector<gas_reading> readings;
  std::vector<int> lines; // of each
  std::vector<refusal> refused;
};

// A moment as `measured_at` has it once read: "2027-04-09T10:30".
[[nodiscard]] std::string reading_moment(civil_time t);

// How many rows a table may have, and after how many refusals the rest is not told.
inline constexpr std::size_t most_reading_rows = 100000;
inline constexpr std::size_t most_said_refusals = 20;

// Reads it, by its description where one is given; columns are then told by the file's own names.
// Refuses, with line and column: a figure with another decimal mark than the table's, or one that
// could be read two ways; what is no number, a negative one, one beyond the
// limits, more than six digits after the point, a row without any reading, what is no tube, no kit
// or no time.
[[nodiscard]] read_table read_readings(std::string_view text, const curve_limits& limits,
                                       const tube_codes& codes,
                                       const reading_layout* layout = nullptr);

// A reading corrected to that share of carbon dioxide, rounded to a millionth of a ppm:
// reading x reference / measured. Nothing where there is no reading, no measured share, or none
// above zero; the raw reading stands in any case.
[[nodiscard]] std::optional<exact> co2_corrected(const std::optional<exact>& ppm,
                                                 const std::optional<exact>& co2_pct,
                                                 int reference_tenths);

// The tube that a label of ours names: "FV-2071-04" is tube 4 of FV-2071, its number in two digits
// (core/sheet/labels.hpp). Nothing where the rest is no kit number, or the number none of a tube.
[[nodiscard]] std::optional<known_tube> read_tube_label(std::string_view text);

} // namespace qb::inline receiving
