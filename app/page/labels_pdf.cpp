// Labels and their test page into a file.
#include "app/page/labels_pdf.hpp"

#include "app/page/label_test_page.hpp"
#include "app/page/pages.hpp"

#include <algorithm>

namespace qb::page {

namespace {

canvas canvas_for(const label_sheet& sheet, const char* title, const std::string& made_at) {
  return {title, made_at, tenths(sheet.page.width), tenths(sheet.page.height)};
}

bool is_of_name(const std::string& field) {
  constexpr std::string_view name = " name";
  return field.size() > name.size() && field.substr(field.size() - name.size()) == name;
}

} // namespace

result<labels_pdf> draw_labels_pdf(const std::vector<label_text>& labels, const label_sheet& sheet,
                                   const label_print& print, const std::string& made_at) {
  if (const auto good = check_print(sheet, print); !good) return tl::unexpected(good.error());
  canvas c = canvas_for(sheet, "Tube labels", made_at);
  labels_pdf out;
  {
    const tag document(c, "Document");
    out.shortened = draw_labels(c, labels, sheet, print, cut_marks::no);
  }
  for (const words& one : c.stood_in())
    out.stood_in.push_back(one.what);
  auto bytes = c.finish();
  if (!bytes) return tl::unexpected(bytes.error());
  const auto cut = std::find_if(out.shortened.begin(), out.shortened.end(), is_of_name);
  if (cut != out.shortened.end())
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", *cut,
                                  "longer than two lines of the smallest letters",
                                  "a larger label, labels without the name, or a shorter form"});
  out.bytes = std::move(*bytes);
  return out;
}

result<std::string> draw_label_test_pdf(const label_sheet& sheet, const label_print& print,
                                        const std::string& made_at) {
  if (const auto good = check_print(sheet, print); !good) return tl::unexpected(good.error());
  canvas c = canvas_for(sheet, "Test page for labels", made_at);
  {
    const tag document(c, "Document");
    draw_label_test(c, sheet, print);
  }
  return c.finish();
}

} // namespace qb::page
