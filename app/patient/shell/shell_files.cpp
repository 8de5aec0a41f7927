// The files of a test: handed over, printed before it, or set as reminders; and the codes on the
// screen.
#include "app/assets/zone_files.hpp"
#include "app/handover/export_papers.hpp"
#include "app/handover/export_plan.hpp"
#include "app/handover/export_record.hpp"
#include "app/handover/file_endings.hpp"
#include "app/page/qr_symbol.hpp"
#include "app/patient/shell/shell.hpp"

namespace qb::inline shells {

void shell::write_what_waits(const frame_time& m) {
  finish_export();
  const auto due = writing_.due(m.evenly);
  if (!due || !running_) return;
  const auto& [w, to] = *due;
  if (std::holds_alternative<hand_over>(w)) export_to(to, m.now);
  if (std::holds_alternative<write_reminder_files>(w)) write_reminders_to(to, m.now);
  if (std::holds_alternative<write_papers>(w)) write_papers_to(to, m.now);
}

void shell::export_to(const export_place& to, const clock_reading& r) {
  under_way_ = exporting{to, r.wall, writing_.keys(), {}};
  under_way_->files = write_record();
  if (!under_way_->files) return under_way_.reset();
  // What waits for the disk is not in those files: they are no hand-over of the whole record.
  if (!recovery_.waiting()) submit(command{exported{}}, r);
  finish_export();
}

// Written again with that fact, which says when it was: a tube whose time was over by then is
// missed, where without it the record would end before and call the tube still to come. A fact that
// is not durable yet is waited for.
void shell::finish_export() {
  if (!under_way_ || saving()) return;
  const bool renamed = under_way_->files->renamed;
  if (running_ && !recovery_.waiting()) under_way_->files = write_record();
  exporting o = std::move(*under_way_);
  under_way_.reset();
  if (!o.files) return;
  o.files->renamed = renamed;
  writing_.show(std::move(*o.files));
  // A drive that has it is not forgotten for a copy on this device.
  std::string& place = ui_.drafts.handed_to;
  if (o.to.drive) place = data_.texts("places.drive.within", {{"name", o.to.label}});
  if (place.empty()) place = data_.texts("places.here");
}

std::optional<written_files> shell::write_record() {
  const exporting& o = *under_way_;
  // On a drive that is given away lies the one file alone; all the others stay on the device.
  const handover::export_set wanted =
      o.to.drive ? handover::export_set::one_file : handover::export_set::everything;
  const auto ours = o.files ? o.files->paths : std::vector<std::string>{};
  return writing_.write(
      o.to, side_page::hand_over,
      [&](disk& device, const std::string& folder) {
        return handover::export_record(
            device, folder, running_->session().events(),
            {options_.program, zone_data_version(), clock_.place(), o.at, o.keys, wanted}, ours);
      },
      trouble_);
}

// Printed from the record as it stands; nothing is told by it.
void shell::write_papers_to(const export_place& to, const clock_reading& r) {
  const state& s = current();
  if (!s.planned) return;
  const auto own = load_zone(s.planned->what.zone_name);
  const zone& z = own ? *own : clock_.place();
  auto files = writing_.write(
      to, side_page::papers,
      [&](disk& device, const std::string& folder) {
        return handover::export_papers(device, folder, s, data_.labels, z, r.wall);
      },
      trouble_);
  if (files) writing_.show(std::move(*files));
}

// Reminders are of the plan's own zone: the day they name is the day they ring.
void shell::write_reminders_to(const export_place& to, const clock_reading& r) {
  const auto p = prepared_plan_of(current());
  if (!p) return;
  const auto own = load_zone(p->what.zone_name);
  const zone& z = own ? *own : clock_.place();
  auto files = writing_.write(
      to, side_page::reminders,
      [&](disk& device, const std::string& folder) {
        return handover::export_plan(device, folder, *p, z, r.wall);
      },
      trouble_);
  if (!files) return;
  reported_checklist told{reminders_list, {}};
  for (const auto& [ending, item] : {std::pair{handover::ending::reminders, calendar_item},
                                     std::pair{handover::ending::preparation, page_item}})
    for (const std::string& path : files->paths)
      if (std::string_view(path).ends_with(ending)) told.items.emplace_back(item);
  submit(command{std::move(told)}, r);
  writing_.show(std::move(*files));
  ui_.nav.open_side(side_page::reminders); // a list that was told closes its page: this one goes on
}

// Made when their page is open, and again when the record grew.
void shell::make_codes() {
  if (ui_.nav.open != side_page::code || !running_) return;
  const std::int64_t durable = running_->session().current().seq;
  if (codes_seq_ == durable) return;
  codes_.clear();
  codes_seq_ = durable;
  const handover::export_keys keys = writing_.keys();
  const auto texts = code::codes_of(running_->session().events(), handover::code_signer(keys));
  if (!texts) return; // before tube 1: the page says that there is none yet
  for (const std::string& text : *texts) {
    // A screen is clean: the weaker correction makes larger modules.
    auto one = page::qr_symbol(text, page::correction::m);
    QB_BELIEVE(one.has_value());
    codes_.push_back(std::move(*one));
  }
}

} // namespace qb::inline shells
