// A header and its rows of a table as spreadsheets write them; what they mean is readings.hpp.
#pragma once

#include "core/base/csv.hpp"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// A header and its rows, those with nothing in them left out.
struct table {
  std::vector<std::string> names; // of the header, in lower case; a column without a name is ""
  std::vector<csv::row> rows;
  std::vector<csv::row> head{}; // lines above the header, where there may be any
};

// Parts the text, by comma, semicolon or tab. Lines before the header for which `is_head` holds are
// put apart; empty: the first line is the header. Refuses what csv::reader refuses, an empty file
// and more than `most_rows` rows.
[[nodiscard]] result<table>
read_text_table(std::string_view text, std::size_t most_rows,
                const std::function<bool(const csv::row&)>& is_head = {});

} // namespace qb::inline receiving
