// Each drawn by itself: one that cannot be drawn leaves the other.
#include "app/handover/export_papers.hpp"

#include "app/handover/file_endings.hpp"
#include "app/page/empty_sheet_page.hpp"
#include "app/page/finished_pdf.hpp"
#include "app/page/labels_pdf.hpp"
#include "core/sheet/empty_sheet.hpp"

namespace qb::handover {

namespace {

// Marked as that test's.
result<std::string> marked(const result<std::string>& pdf, const state& s) {
  return pdf ? page::with_test_id(*pdf, s.opening->test_id) : pdf;
}

} // namespace

result<exported_files> export_papers(disk& device, const std::string& folder, const state& s,
                                     const label_sheet& labels, const zone& place,
                                     instant made_at) {
  if (!s.opening || !s.person || !s.planned || !s.test || !s.profile)
    return tl::unexpected(refusal{refusal_kind::not_now, "", "papers", "a test without a plan",
                                  "a test with a person and a plan"});
  const std::string dated = rfc3339_utc(made_at);
  const auto stickers = page::draw_labels_pdf(labels_of(s), labels, {}, dated);
  const result<std::string> drawn =
      stickers ? result<std::string>(stickers->bytes) : tl::unexpected(stickers.error());
  auto out =
      write_together(device, folder,
                     {{ending::labels, marked(drawn, s)},
                      {ending::empty_sheet,
                       marked(page::draw_empty_sheet_pdf(empty_sheet_of(s, place), dated), s)}},
                     {export_stem(s.person->kit_number, s.rehearsal()), s.opening->test_id});
  if (out) out->shortened = stickers && !stickers->shortened.empty();
  return out;
}

} // namespace qb::handover
