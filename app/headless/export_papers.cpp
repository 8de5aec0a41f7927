// Both drawn first, so that one that cannot be drawn leaves nothing behind.
#include "app/headless/export_papers.hpp"

#include "app/page/empty_sheet_page.hpp"
#include "app/page/finished_pdf.hpp"
#include "app/page/labels_pdf.hpp"
#include "app/platform/files.hpp"
#include "core/sheet/empty_sheet.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb {

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
       {std::pair{".labels.pdf", &stickers->bytes}, {".empty-sheet.pdf", &*sheet}}) {
    auto marked = with_test_id(*bytes, s.opening->test_id);
    if (!marked) return tl::unexpected(marked.error());
    out.files.push_back({ending, std::move(*marked)});
  }
  return out;
}

bool is_free(const std::string& path, const std::string& test_id) {
  const auto there = read_file(path);
  if (!there) return there.error().kind == refusal_kind::missing;
  return is_paper_of(*there, test_id);
}

result<std::string> free_name(const std::string& folder, const std::string& wanted,
                              const std::vector<outgoing_file>& files, const std::string& test_id) {
  constexpr int most_tries = 100;
  for (int n = 1; n <= most_tries; ++n) {
    std::string name = n == 1 ? wanted : fmt::format("{}-{}", wanted, n);
    if (std::all_of(files.begin(), files.end(), [&](const outgoing_file& file) {
          return is_free(folder + "/" + name + file.ending, test_id);
        }))
      return name;
  }
  return tl::unexpected(refusal{refusal_kind::machine, folder, "", "many papers of one kit number",
                                "a folder with room for another"});
}

} // namespace

result<exported_files> export_papers(const std::string& folder, const state& s,
                                     const label_sheet& labels, const zone& place,
                                     instant made_at) {
  if (!s.opening || !s.person || !s.planned || !s.test || !s.profile)
    return tl::unexpected(refusal{refusal_kind::not_now, "", "papers", "a test without a plan",
                                  "a test with a person and a plan"});
  const auto drawn = draw(s, labels, place, rfc3339_utc(made_at));
  if (!drawn) return tl::unexpected(drawn.error());
  if (const auto made = make_folder(folder); !made) return tl::unexpected(made.error());
  const std::string wanted = export_stem(s.person->kit_number, s.rehearsal());
  const auto name = free_name(folder, wanted, drawn->files, s.opening->test_id);
  if (!name) return tl::unexpected(name.error());
  exported_files out;
  out.renamed = *name != wanted;
  out.shortened = drawn->shortened;
  for (const outgoing_file& file : drawn->files) {
    const std::string path = folder + "/" + *name + file.ending;
    if (const auto done = write_and_read_back(path, file.bytes); !done)
      return tl::unexpected(done.error());
    out.paths.push_back(path);
  }
  return out;
}

} // namespace qb
