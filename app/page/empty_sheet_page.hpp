// The empty sheet on paper: printed offsets, room for a pen.
#pragma once

#include "core/base/result.hpp"
#include "core/sheet/empty_sheet.hpp"

#include <string>

namespace qb::page {

// A PDF of A4, one page for up to ten tubes, tagged, fonts embedded, text extractable, dated
// `made_at`; the same input gives the same bytes. A letter that no font has
// is a square, and its whole text a code.
[[nodiscard]] result<std::string> draw_empty_sheet_pdf(const empty_sheet& sheet,
                                                       const std::string& made_at);

} // namespace qb::page
