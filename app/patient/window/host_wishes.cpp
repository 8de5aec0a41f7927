// What becomes of a wish: a fact recorded, practice begun or left, a record handed over.
#include "app/patient/window/host.hpp"

#include "app/headless/export_plan.hpp"
#include "app/headless/export_record.hpp"
#include "app/headless/zone_files.hpp"
#include "app/platform/clocks.hpp"
#include "app/platform/surroundings.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>

namespace qb {

namespace {

// Where the person's own copies go.
std::string own_folder(const std::string& data) {
  return data + "/handed-over";
}

// Removable drives that are plugged in, then the device's own folder.
std::vector<export_place> find_places(const words& t, const std::string& data) {
  namespace fs = std::filesystem;
  std::vector<export_place> out;
  std::error_code none;
  for (const char* root : {"/media", "/run/media"}) {
    for (const auto& user : fs::directory_iterator(root, none)) {
      for (const auto& drive : fs::directory_iterator(user.path(), none))
        out.push_back({drive.path().string(),
                       t("place.drive", {{"name", drive.path().filename().string()}})});
    }
  }
  out.push_back({own_folder(data), t("place.folder")});
  return out;
}

template <typename... Handlers>
struct handle : Handlers... {
  using Handlers::operator()...;
};
template <typename... Handlers>
handle(Handlers...) -> handle<Handlers...>;

} // namespace

void host::carry_out(const wish& w, const reading& r) {
  trouble_.clear();
  // While the record cannot be opened only facts are taken, to be written later.
  const bool fact = std::holds_alternative<payload>(w) || std::holds_alternative<record_all>(w);
  if (!running_ && !unwritten_.empty() && !fact) return;
  std::visit(handle{[&](const payload& p) { record(p, r); },
                    [&](const record_all& all) {
                      for (const payload& p : all.facts) {
                        // What is not written is asked again; only help is not.
                        if (!unwritten_.empty() && !std::holds_alternative<unwell_told>(p))
                          continue;
                        record(p, r);
                      }
                    },
                    [&](const jump_ahead&) {
                      const now_answer now = what_now(current(), r);
                      if (clock_.practice() && now.next_change)
                        keep_base(clock_.jump(*now.next_change));
                    },
                    [&](const begin_practice&) { switch_practice(true); },
                    [&](const leave_practice&) { switch_practice(false); },
                    [&](const try_sound&) { cues_.play(cue::now); },
                    [&](const hand_over& h) { export_to(h.folder, r); },
                    [&](const write_reminder_files& h) { write_reminders_to(h.folder, r); },
                    [&](const reminders_seen&) { reminder_files_.clear(); },
                    [&](const begin_anew&) {
                      running_.reset();
                      ui_ = ui_state{};
                      exported_.clear();
                      codes_.clear();
                      codes_seq_ = 0;
                    }},
             w);
  look_for_places();
}

void host::look_for_places() {
  places_ = find_places(words_, options_.data);
}

void host::record(payload p, const reading& r) {
  if (!unwritten_.empty()) return keep_for_later(command{std::move(p)}, r);
  if (std::holds_alternative<opened>(p)) return begin_test(std::move(p), r);
  if (!running_) { // nothing is open yet: the one thing that can be asked for is help
    ui_.open = "unwell";
    ui_.page = 0;
    return;
  }
  submit(command{std::move(p)}, r);
}

// The agreement opens the record: only now a file is made.
void host::begin_test(payload first, const reading& r) {
  auto& opening = std::get<opened>(first);
  opening.test_id = random_name();
  opening.program = options_.program;
  opening.rehearsal = clock_.practice();
  opening.profile_text = profile_->canonical_text;
  const std::string folder = tests_folder(options_.data, clock_.practice());
  auto made = running_test::open(folder + "/" + opening.test_id + ".journal");
  if (!made) {
    trouble_ = sentence(made.error());
    return;
  }
  running_ = std::move(*made);
  submit(command{std::move(first)}, r);
}

void host::submit(const command& c, const reading& r) {
  const auto done = running_->session().submit(c, r);
  if (done) {
    const bool leaves_side_page = std::holds_alternative<plan_made>(c.wanted) ||
                                  std::holds_alternative<person_told>(c.wanted) ||
                                  std::holds_alternative<ready_told>(c.wanted) ||
                                  std::holds_alternative<checklist_told>(c.wanted);
    if (leaves_side_page) ui_.open.clear();
    return;
  }
  if (done.error().kind == refusal_kind::machine) {
    return keep_for_later(c, r);
  }
  trouble_ = words_.has(done.error().where) ? words_(done.error().where) : done.error().expected;
}

void host::switch_practice(bool on) {
  const std::int64_t real = read_clocks().wall_ms;
  clock_ = on ? test_clock(practice_base{real, real, 1}) : test_clock();
  options_.rehearsal = on;
  if (const auto opened = open_newest(); !opened) trouble_ = sentence(opened.error());
  if (on) keep_base(clock_.base());
}

void host::export_to(const std::string& folder, const reading& r) {
  const export_keys keys = device_keys(options_.data);
  // On a drive that is given away lies the one file alone; all the others stay on the device.
  const export_set wanted =
      folder == own_folder(options_.data) ? export_set::everything : export_set::one_file;
  const auto write = [&] {
    return export_record(folder, running_->session().events(),
                         {options_.program, clock_.place(), r.wall, keys, wanted});
  };
  auto files = write();
  if (files) submit(command{exported{}}, r);
  // Written again with that fact, which says when it was: a tube whose time was over by then is
  // missed, where without it the record would end before and call the tube still to come.
  if (files && unwritten_.empty()) files = write();
  if (files) exported_ = files->paths;
  if (!files) trouble_ = sentence(files.error());
}

// Reminders are of the plan's own zone: the day they name is the day they ring.
void host::write_reminders_to(const std::string& folder, const reading& r) {
  const auto p = prepared_plan_of(current());
  if (!p) return;
  const auto own = load_zone(p->what.zone_name);
  const zone& z = own ? *own : clock_.place();
  const auto files = export_plan(folder, *p, z, r.wall);
  if (!files) {
    trouble_ = sentence(files.error());
    return;
  }
  checklist_told written{reminders_list, {calendar_item}};
  if (!p->called_off) written.items.emplace_back(page_item);
  submit(command{std::move(written)}, r);
  reminder_files_ = files->paths;
  ui_.open = "reminders"; // a list that was told closes its page: this one goes on
}

} // namespace qb
