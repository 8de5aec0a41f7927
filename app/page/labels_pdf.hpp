// Labels alone as a PDF, for sheets and rolls of stickers; and the page that tests how they print.
#pragma once

#include "core/sheet/label_sheet.hpp"
#include "core/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace qb::page {

// The file, and what was shortened or left out on it ("label 3 doctor"), for whoever prints it.
struct labels_pdf {
  std::string bytes;
  std::vector<std::string> shortened;
  std::vector<std::string> stood_in{}; // with a square for letters that no font has: "label 3 name"
};

// A PDF of that sheet's page size, tagged, fonts embedded, text extractable, dated `made_at`; the
// same input gives the same bytes. A letter that no installed font has is a square: whose the tube
// is says the kit's code. Refuses a name that does not fit even on two lines of the smallest
// letters (on a tube a name is never cut), and settings that `check_print` refuses.
[[nodiscard]] result<labels_pdf> draw_labels_pdf(const std::vector<label_text>& labels,
                                                 const label_sheet& sheet, const label_print& print,
                                                 const std::string& made_at);

// One page to lay over a sheet of labels: each label's corners and its number for the start, and
// rules to measure, since printers that "fit to page" change every length.
[[nodiscard]] result<std::string>
draw_label_test_pdf(const label_sheet& sheet, const label_print& print, const std::string& made_at);

} // namespace qb::page
