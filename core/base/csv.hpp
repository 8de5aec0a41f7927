// Rows and cells of comma-separated text, as spreadsheets write it; what they mean is the caller's.
//
// Lines end in LF, CRLF or CR. A byte order mark, blank lines, a first line "sep=;" and blanks
// around a cell are passed over. A cell may stand in quotes, where two quotes are one; a quoted
// cell closes on its line.
#pragma once

#include "core/base/result.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::csv {

// One row: its line in the file from 1, its text, its cells without quotes and outer blanks.
struct row {
  int line{0};
  std::string text;
  std::vector<std::string> cells;

  // Whether nothing stands in any cell.
  [[nodiscard]] bool empty() const;
};

// Gives one row after the other; how many are too many is for who keeps them. The text must
// outlive it.
class reader {
public:
  // Cells are parted by the one of `separators` that stands most often in the first row. Refuses
  // what is not UTF-8 text.
  [[nodiscard]] static result<reader> open(std::string_view text, std::string_view separators);

  // The next row, nothing at the end. Refuses a quote that does not close and text behind one, by
  // line and character.
  [[nodiscard]] result<std::optional<row>> next();

private:
  reader(std::string_view text, std::string_view separators)
      : rest_(text), separators_(separators) {}

  std::string_view rest_;
  std::string_view separators_;
  char separator_{0}; // none before the first row
  int line_{0};
};

} // namespace qb::csv
