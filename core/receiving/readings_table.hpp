// Rows and cells of a table as spreadsheets write them; what they mean is readings.hpp.
#pragma once

#include "core/base/result.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace qb {

// One row: its line in the file, its text, its cells without quotes and outer blanks.
struct table_row {
  int line{0};
  std::string text;
  std::vector<std::string> cells;

  [[nodiscard]] bool empty() const;
};

// A header and its rows, those with nothing in them left out.
struct table {
  std::vector<std::string> names; // of the header, in lower case; a column without a name is ""
  std::vector<table_row> rows;
};

// Parts the text. Refuses what is not UTF-8, a quote that does not close on its line, an empty file
// and more than `most_rows` rows.
[[nodiscard]] result<table> read_text_table(std::string_view text, std::size_t most_rows);

} // namespace qb
