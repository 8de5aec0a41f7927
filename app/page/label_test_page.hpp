// The page that shows whether a printer keeps lengths and places, before a sheet of labels is
// spent.
#pragma once

#include "app/page/canvas.hpp"
#include "core/sheet/label_sheet.hpp"

namespace qb::page {

// The length of the rules, in tenths of a millimetre: 100 mm where the page is wide enough.
[[nodiscard]] int rule_length(const label_sheet& sheet);

// Draws it: corners and place numbers of all labels of one page, a rule across and one down, what
// they should measure and what to do where they do not.
void draw_label_test(canvas& c, const label_sheet& sheet, const label_print& print);

} // namespace qb::page
