// A header and its rows of a table as spreadsheets write them; what they mean is readings.hpp.
#pragma once

#include "core/base/csv.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace qb {

// A header and its rows, those with nothing in them left out.
struct table {
  std::vector<std::string> names; // of the header, in lower case; a column without a name is ""
  std::vector<csv::row> rows;
};

// Parts the text, by comma, semicolon or tab. Refuses what csv::reader refuses, an empty file and
// more than `most_rows` rows.
[[nodiscard]] result<table> read_text_table(std::string_view text, std::size_t most_rows);

} // namespace qb
