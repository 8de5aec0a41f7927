// A hairline table: columns, a head that is repeated on each page, rows as tall as their text.
#pragma once

#include "app/page/canvas.hpp"
#include "core/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace qb::page {

// One column; the width includes the space to its neighbour.
struct table_column {
  std::string head;
  double width{0};
  align to{align::left};
};

// One row: a text for each column, and words below them over the whole width, if any. A comment in
// a column of its own would be a narrow tower beside mostly empty cells.
struct table_row {
  std::vector<std::string> cells;
  std::string below;
};

// Where a table may be drawn: from x, y down to `bottom`.
struct table_place {
  double x{0};
  double y{0};
  double bottom{0};
};

// How wide columns of these heads are in `room` points together: each as wide as its head's longest
// word with `air` beside it, and an equal share of what is left, up to `most`. Where not even the
// words have room, all give way alike.
[[nodiscard]] std::vector<double> widths_by_words(canvas& c, const std::vector<std::string>& heads,
                                                  const type_style& style, double air, double room,
                                                  double most);

// The columns of the sheet's table, over `width` points in all.
[[nodiscard]] std::vector<table_column> sample_columns(canvas& c, const sheet_text& s,
                                                       double width);

// Draws the head and as many rows from `done` on as fit (at least one), moves `done` behind the
// last drawn; answers the y below them.
[[nodiscard]] double draw_rows(canvas& c, const table_place& place,
                               const std::vector<table_column>& columns,
                               const std::vector<table_row>& rows, std::size_t& done);

} // namespace qb::page
