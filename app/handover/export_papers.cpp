// Both drawn first, so that one that cannot be drawn leaves nothing behind.
#include "app/handover/export_papers.hpp"

#include "app/handover/file_endings.hpp"
#include "app/page/empty_sheet_page.hpp"
#include "app/page/finished_pdf.hpp"
#include "app/page/labels_pdf.hpp"
#include "core/sheet/empty_sheet.hpp"

namespace qb::handover {

namespace {

struct drawn_papers {
  std::vector<outgoing_file> files;
  bool shortened{false};
};

result<drawn_papers> draw(const state& s, const label_sheet& labels, const zone& place,
                          const std::string& made_at) {
  const auto stickers = draw_labels_pdf(labels_of(s), labels, {}, made_at);
  if (!stickers) return tl::unexpected(stickers.error());
  const auto sheet = draw_empty_sheet_pdf(empty_sheet_of(s, place), made_at);
  if (!sheet) return tl::unexpected(sheet.error());
  drawn_papers out{{}, !stickers->shortened.empty()};
  for (const auto& [ending, bytes] :
       {std::pair{ending::labels, &stickers->bytes}, {ending::empty_sheet, &*sheet}}) {
    auto marked = with_test_id(*bytes, s.opening->test_id);
    if (!marked) return tl::unexpected(marked.error());
    out.files.push_back({ending, std::move(*marked)});
  }
  return out;
}

} // namespace

result<exported_files> export_papers(disk& device, const std::string& folder, const state& s,
                                     const label_sheet& labels, const zone& place,
                                     instant made_at) {
  if (!s.opening || !s.person || !s.planned || !s.test || !s.profile)
    return tl::unexpected(refusal{refusal_kind::not_now, "", "papers", "a test without a plan",
                                  "a test with a person and a plan"});
  const auto drawn = draw(s, labels, place, rfc3339_utc(made_at));
  if (!drawn) return tl::unexpected(drawn.error());
  auto out = write_together(device, folder, drawn->files,
                            {export_stem(s.person->kit_number, s.rehearsal()), s.opening->test_id});
  if (out) out->shortened = drawn->shortened;
  return out;
}

} // namespace qb::handover
