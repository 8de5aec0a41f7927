// The file: first drawn to count its pages, then with the counts in place.
#include "app/page/record_pdf.hpp"

#include "app/page/pages.hpp"

namespace qb {

namespace {

int sheet_pages(const sheet_text& sheet, const std::string& made_at) {
  page::canvas trial(sheet.title, made_at);
  page::draw_sheet(trial, sheet, 1);
  return trial.pages();
}

} // namespace

result<std::string> draw_record_pdf(const sheet_text& sheet, const std::vector<label_text>& labels,
                                    const std::string& made_at) {
  const int pages = sheet_pages(sheet, made_at);
  page::canvas c(sheet.title, made_at);
  {
    const page::tag document(c, "Document");
    page::draw_sheet(c, sheet, pages);
    if (!labels.empty()) {
      c.next_page();
      page::draw_labels(c, labels, page::a4_3_by_8);
    }
  }
  return c.finish();
}

result<std::string> draw_labels_pdf(const std::vector<label_text>& labels,
                                    const std::string& made_at) {
  page::canvas c("Tube labels", made_at);
  {
    const page::tag document(c, "Document");
    page::draw_labels(c, labels, page::a4_3_by_8);
  }
  return c.finish();
}

} // namespace qb
