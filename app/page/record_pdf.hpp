// A test's record on paper: the symptom and sample sheet, then the labels.
// What stands there is decided in core/sheet; here it is only set in type.
#pragma once

#include "core/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace qb::page {

// One A4 PDF, tagged, fonts embedded, text extractable: the sheet (one page where it fits), then
// the labels on a grid of 3 x 8. `made_at` becomes the file's date ("2027-04-06T10:05:00Z"); the
// same input gives the same bytes. A letter that no installed font has is a square, and its
// whole text stands as a code at the sheet's end. `code_texts` are drawn as QR codes before that;
// none where there is no result yet.
[[nodiscard]] result<std::string> draw_record_pdf(const sheet_text& sheet,
                                                  const std::vector<label_text>& labels,
                                                  const std::string& made_at,
                                                  const std::vector<std::string>& code_texts = {});

} // namespace qb::page
