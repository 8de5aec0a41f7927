// The preparation page on paper: one A4 for the door of the refrigerator.
// What stands there is decided in core/sheet; here it is only set in type.
#pragma once

#include "app/page/canvas.hpp"
#include "core/sheet/preparation.hpp"

#include <string>

namespace qb::page {

// One A4 PDF, tagged, fonts embedded, text extractable; set as large as fits on one page, down to a
// size that can still be read, and only then on more pages. `made_at` becomes the file's date
// ("2027-04-06T10:05:00Z"); the same input gives the same bytes. A letter that no
// installed font has is a square.
[[nodiscard]] result<std::string> draw_preparation_pdf(const preparation_text& text,
                                                       const std::string& made_at);

// The sizes tried, largest first, as the body's em in points.
inline constexpr double preparation_sizes[] = {11, 10.5, 10, 9.5, 9, 8.5, 8};

// Draws the page with that size of the body from the present page on; answers the last page's y
// below everything but the foot.
double draw_preparation(canvas& c, const preparation_text& text, double body);

} // namespace qb::page
