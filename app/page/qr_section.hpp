// The result by code on the symptom and sample sheet: QR codes, and in words what they hold.
// A PDF's picture cannot carry a text of its own here, so the words stand beside it.
#pragma once

#include "app/page/canvas.hpp"
#include "core/code/symbol.hpp"
#include "core/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace qb::page {

// A code's side on paper, quiet zone included, and the least side of a module, in millimetres:
// what readers managed in trials with cheap printers and telephones.
inline constexpr double code_side_mm = 40;
inline constexpr double least_module_mm = 0.5;

// The codes of those texts for paper.
[[nodiscard]] result<std::vector<code::symbol>> paper_codes(const std::vector<std::string>& texts);

// A code as a figure, `width` wide with its quiet zone.
void draw_code(canvas& c, double x, double y, double width, const code::symbol& s);

// Where a code's block ends at the right and begins at the top.
struct code_corner {
  double right{0};
  double top{0};
};

// One code in a column of its own: its heading, the code, the words under it.
inline constexpr double code_column_width = mm(code_side_mm + 6);
inline constexpr double code_column_height = mm(code_side_mm + 21);
void draw_code_column(canvas& c, const code_corner& at, const code::symbol& code,
                      const sheet_text& sheet);

// Several codes in rows, the words at the left of the first row; from `first` on as many as fit.
inline constexpr double code_row_height = mm(code_side_mm + 4);
inline constexpr std::size_t codes_in_a_row = 3;
void draw_code_row(canvas& c, const code_corner& at, double left,
                   const std::vector<code::symbol>& codes, std::size_t first,
                   const sheet_text& sheet);

} // namespace qb::page
