// The file: first drawn to count its pages, then with the counts in place.
#include "app/page/record_pdf.hpp"

#include "app/page/pages.hpp"
#include "app/page/qr_section.hpp"

namespace qb::page {

namespace {

int sheet_pages(const sheet_text& sheet, const std::vector<code::symbol>& codes,
                const std::string& made_at) {
  canvas trial(sheet.title, made_at);
  draw_sheet(trial, sheet, codes, 1);
  return trial.pages();
}

} // namespace

result<std::string> draw_record_pdf(const sheet_text& sheet, const std::vector<label_text>& labels,
                                    const std::string& made_at,
                                    const std::vector<std::string>& code_texts) {
  const auto codes = paper_codes(code_texts);
  if (!codes) return tl::unexpected(codes.error());
  const int pages = sheet_pages(sheet, *codes, made_at);
  canvas c(sheet.title, made_at);
  {
    const tag document(c, "Document");
    draw_sheet(c, sheet, *codes, pages);
    if (!labels.empty()) {
      c.next_page();
      draw_labels(c, labels, plain_paper(), {}, cut_marks::yes);
    }
  }
  return c.finish();
}

} // namespace qb::page
