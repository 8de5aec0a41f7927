// Writing files where the person wants them: a folder of this device, or a drive that may be pulled
// out at any moment. Nothing is called written that was not read back from where it still is.
#include "app/assets/zone_files.hpp"
#include "app/handover/export_papers.hpp"
#include "app/handover/export_plan.hpp"
#include "app/handover/export_record.hpp"
#include "app/machine/clocks.hpp"
#include "app/machine/drives.hpp"
#include "app/patient/screens/places.hpp"
#include "app/patient/shell/shell.hpp"

namespace qb {

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

// The folder stands first, and rows stay where they are as long as the page is shown.
void shell::look_for_places() {
  if (!asks_for_place(ui_.open)) return places_.clear();
  std::vector<export_place> found;
  // What lies in it is erased with the test: on a shared device that would be no hand-over.
  if (!terms().kiosk)
    found.push_back({copies_folder(options_.data), words_("places.folder-here"), false});
  for (const drive& d : drives_below(options_.drive_roots))
    found.push_back({d.folder, words_("places.drive", {{"name", d.name}}), true, d.name});
  places_ = in_steady_rows(std::move(places_), found);
}

// A drive takes seconds, in which nothing is drawn: first the page that says so has to be seen.
void shell::write_soon(wish w, export_place to) {
  waits_ = std::move(w);
  waits_for_ = std::move(to);
  waits_since_ = since_boot();
}

void shell::write_what_waits(const clock_reading& r) {
  constexpr std::chrono::milliseconds long_enough_to_read{500};
  if (!waits_ || since_boot() - waits_since_ < long_enough_to_read) return;
  const wish w = std::move(*waits_);
  const export_place to = std::move(*waits_for_);
  waits_.reset();
  waits_for_.reset();
  if (!running_) return;
  if (std::holds_alternative<hand_over>(w)) export_to(to, r);
  if (std::holds_alternative<write_reminder_files>(w)) write_reminders_to(to, r);
  if (std::holds_alternative<write_papers>(w)) write_papers_to(to, r);
}

// Writes, and says in plain words what stood against it. A drive that went meanwhile leaves an
// empty folder of this device behind, into which the writing may have gone well.
template <typename Write>
std::optional<written_files> shell::written_to(const export_place& to, const std::string& page,
                                               const Write& write) {
  const refusal pulled{refusal_kind::missing, to.folder, "", "no drive", "a drive"};
  auto files = result<exported_files>(tl::unexpected(pulled));
  if (!to.drive || is_drive(to.folder)) files = write();
  if (files && to.drive && !is_drive(to.folder)) files = tl::unexpected(pulled);
  if (files) return written_files{page, files->paths, to, files->renamed, files->shortened};
  const place_trouble what = trouble_at(to.folder, to.drive, files.error());
  trouble_ = words_(words_key(what), {{"place", to.words}}) + " " + words_("places.still-here");
  return std::nullopt;
}

void shell::export_to(const export_place& to, const clock_reading& r) {
  const export_keys keys = device_keys(options_.data);
  // On a drive that is given away lies the one file alone; all the others stay on the device.
  const export_set wanted = to.drive ? export_set::one_file : export_set::everything;
  std::vector<std::string> ours;
  const auto write = [&] {
    return written_to(to, "hand-over", [&] {
      return export_record(to.folder, running_->session().events(),
                           {options_.program, clock_.place(), r.wall, keys, wanted}, ours);
    });
  };
  auto files = write();
  if (!files) return;
  ours = files->paths;
  const bool renamed = files->renamed;
  submit(command{exported{}}, r);
  // Written again with that fact, which says when it was: a tube whose time was over by then is
  // missed, where without it the record would end before and call the tube still to come.
  if (unwritten_.empty()) files = write();
  if (!files) return;
  written_ = std::move(*files);
  written_.renamed = renamed;
  // A drive that has it is not forgotten for a copy on this device.
  std::string& place = ui_.text[draft::handed_to];
  if (to.drive) place = words_("places.drive.within", {{"name", to.label}});
  if (place.empty()) place = words_("places.here");
}

// Printed from the record as it stands; nothing is told by it.
void shell::write_papers_to(const export_place& to, const clock_reading& r) {
  const state& s = current();
  if (!s.planned) return;
  const auto own = load_zone(s.planned->what.zone_name);
  const zone& z = own ? *own : clock_.place();
  auto files =
      written_to(to, "papers", [&] { return export_papers(to.folder, s, *labels_, z, r.wall); });
  if (files) written_ = std::move(*files);
}

// Reminders are of the plan's own zone: the day they name is the day they ring.
void shell::write_reminders_to(const export_place& to, const clock_reading& r) {
  const auto p = prepared_plan_of(current());
  if (!p) return;
  const auto own = load_zone(p->what.zone_name);
  const zone& z = own ? *own : clock_.place();
  auto files = written_to(to, "reminders", [&] { return export_plan(to.folder, *p, z, r.wall); });
  if (!files) return;
  reported_checklist told{reminders_list, {calendar_item}};
  if (!p->called_off) told.items.emplace_back(page_item);
  submit(command{std::move(told)}, r);
  written_ = std::move(*files);
  ui_.open = "reminders"; // a list that was told closes its page: this one goes on
}

} // namespace qb
