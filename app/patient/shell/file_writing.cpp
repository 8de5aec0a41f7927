// Places found, wishes kept, files written.
#include "app/patient/shell/file_writing.hpp"

#include "app/patient/screens/places.hpp"
#include "app/store/data_folders.hpp"

namespace qb::inline shells {

namespace {

const char* words_key(place_trouble t) {
  switch (t) {
  case place_trouble::gone: return "places.gone";
  case place_trouble::read_only: return "places.read-only";
  case place_trouble::full: return "places.full";
  case place_trouble::other: return "places.other";
  }
  QB_BELIEVE(false);
  return "";
}

} // namespace

void file_writing::look_for_places(const ui_state& u, bool shared_device) {
  if (!asks_for_place(u.nav.open)) return places_.clear();
  std::vector<export_place> found;
  if (!shared_device) found.push_back({copies_folder(data_), words_("places.folder-here"), false});
  for (const drive& d : machine_.drives())
    found.push_back({d.folder, words_("places.drive", {{"name", d.name}}), true, d.name});
  places_ = in_steady_rows(std::move(places_), found);
}

void file_writing::later(wish w, export_place to, duration evenly) {
  waits_ = std::move(w);
  waits_for_ = std::move(to);
  waits_since_ = evenly;
}

std::optional<std::pair<wish, export_place>> file_writing::due(duration evenly) {
  // Writing holds the window up: for so long at least its page is seen before.
  constexpr std::chrono::milliseconds long_enough_to_read{500};
  if (!waits_ || evenly - waits_since_ < long_enough_to_read) return std::nullopt;
  auto out = std::make_pair(std::move(*waits_), std::move(*waits_for_));
  waits_.reset();
  waits_for_.reset();
  return out;
}

std::optional<written_files> file_writing::write(const export_place& to, side_page page,
                                                 const writer& how, std::string& trouble) {
  const refusal pulled{refusal_kind::missing, to.folder, "", "no drive", "a drive"};
  auto files = result<handover::exported_files>(tl::unexpected(pulled));
  if (!to.drive || machine_.is_drive(to.folder)) files = how(machine_.files(), to.folder);
  if (files && to.drive && !machine_.is_drive(to.folder)) files = tl::unexpected(pulled);
  if (files) {
    written_files out{page, files->paths, to, files->renamed, files->shortened, {}};
    for (const handover::left_out_file& file : files->left_out)
      out.left_out.push_back(file.path);
    return out;
  }
  const place_trouble what = machine_.trouble_at(to.folder, to.drive, files.error());
  trouble = words_(words_key(what), {{"place", to.words}}) + " " + words_("places.still-here");
  return std::nullopt;
}

void file_writing::forget() {
  waits_.reset();
  waits_for_.reset();
  written_ = written_files{};
}

} // namespace qb::inline shells
