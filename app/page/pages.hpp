// The pages a record is made of, each drawn from its text onto a canvas.
// Kept apart from the file they go into, so that each page can be read by itself.
#pragma once

#include "app/page/canvas.hpp"
#include "core/code/symbol.hpp"
#include "core/sheet/label_sheet.hpp"
#include "core/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace qb::page {

// What practice is marked with, on every page and every label.
inline constexpr const char* practice_mark = "PRACTICE - not a test";

// Draws the sheet from the present page on. `pages` is the count printed at the foot; `codes` are
// the result by code, none where there is none yet.
void draw_sheet(canvas& c, const sheet_text& sheet, const std::vector<code::symbol>& codes,
                int pages);

// Whether small crosses show where to cut; they are for plain paper, not for stickers.
enum class cut_marks { no, yes };

// Draws the labels from the present page on, in their order, at the places of that sheet. Answers
// what had to be shortened with an ellipsis, or left out, because even the smallest letters do not
// fit: "label 3 doctor", "label 3 code". Number, kit number and time are never among them.
std::vector<std::string> draw_labels(canvas& c, const std::vector<label_text>& labels,
                                     const label_sheet& sheet, const label_print& print,
                                     cut_marks marks);

} // namespace qb::page
