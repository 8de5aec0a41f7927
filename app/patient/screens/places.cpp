// The menu of places, the page of writing, and the list of what was written.
#include "app/patient/screens/places.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

// The file's name without its folder.
std::string name_of(const std::string& path) {
  const auto slash = path.rfind('/');
  return slash == std::string::npos ? path : path.substr(slash + 1);
}

std::string folder_of(const std::string& path) {
  const auto slash = path.rfind('/');
  return slash == std::string::npos ? "" : path.substr(0, slash);
}

} // namespace

bool asks_for_place(side_page open) {
  return open == side_page::hand_over || open == side_page::reminders || open == side_page::papers;
}

bool left_place_page(const navigation& before, const navigation& now) {
  return asks_for_place(before.open) && (now.open != before.open || now.page != before.page);
}

std::vector<export_place> in_steady_rows(std::vector<export_place> shown,
                                         const std::vector<export_place>& found) {
  for (export_place& p : shown)
    p.gone = true;
  for (const export_place& p : found) {
    const auto same = std::find_if(shown.begin(), shown.end(),
                                   [&](const export_place& o) { return o.folder == p.folder; });
    if (same == shown.end()) {
      shown.push_back(p);
    } else {
      *same = p;
    }
  }
  return shown;
}

std::optional<std::size_t> place_menu(toolkit& k, const view& v) {
  std::vector<choice> choices;
  for (std::size_t i = 0; i < v.places.size(); ++i) {
    const export_place& p = v.places[i];
    // Where a drive is mounted says nothing to anybody who looks at the drive.
    const std::string detail = p.gone ? v.t("places.not-in") : p.drive ? "" : p.folder;
    choices.push_back({std::to_string(i + 1), p.words, detail});
  }
  const auto picked = menu_list(k, "place", choices);
  const bool plugged = std::any_of(v.places.begin(), v.places.end(),
                                   [](const export_place& p) { return p.drive && !p.gone; });
  if (!plugged)
    notice(k, "plug-in", notice_kind::note,
           v.t(v.places.empty() ? "places.plug-in.only" : "places.plug-in"));
  return picked;
}

maybe_wish draw_writing(toolkit& k, const view& v) {
  const export_place& to = *v.writing_to;
  const auto content = [&] {
    headline(k, "title", v.t("places.writing"));
    paragraph(k, "to", v.t("places.to", {{"place", to.words}}));
    if (to.drive) strong(k, "leave", v.t("places.leave"));
  };
  return framed_page(k, v, "writing", content, [] {});
}

void show_written(toolkit& k, const view& v, const written_files& files) {
  const bool whole = files.left_out.empty();
  paragraph(k, "safe",
            v.t(whole ? "places.safe" : "places.safe-part", {{"place", files.to.words}}));
  if (files.to.drive) strong(k, "take-out", v.t("places.take-out"));
  if (files.renamed) notice(k, "renamed", notice_kind::note, v.t("places.renamed"));
  for (std::size_t i = 0; i < files.paths.size(); ++i)
    quiet_text(k, "file-" + std::to_string(i + 1), name_of(files.paths[i]));
  if (!whole) notice(k, "left-out", notice_kind::note, v.t("places.left-out"));
  for (std::size_t i = 0; i < files.left_out.size(); ++i)
    quiet_text(k, "left-out-" + std::to_string(i + 1), name_of(files.left_out[i]));
  if (!files.to.drive)
    quiet_text(k, "folder", v.t("places.folder", {{"folder", folder_of(files.paths.front())}}));
}

} // namespace qb::inline screens
