// The pages a record is made of, each drawn from its text onto a canvas.
// Kept apart from the file they go into, so that each page can be read by itself.
#pragma once

#include "app/page/canvas.hpp"
#include "app/page/label_grid.hpp"
#include "core/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace qb::page {

// What practice is marked with, on every page and every label.
inline constexpr const char* practice_mark = "PRACTICE - not a test";

// Draws the sheet from the present page on. `pages` is the count printed at the foot.
void draw_sheet(canvas& c, const sheet_text& sheet, int pages);

// Draws the labels from the present page on, in their order, from the grid's first place.
void draw_labels(canvas& c, const std::vector<label_text>& labels, const label_grid& grid);

} // namespace qb::page
