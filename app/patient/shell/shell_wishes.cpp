// What becomes of a wish: a fact recorded, practice begun or left, a test erased.
#include "app/patient/shell/shell.hpp"

#include "app/handover/erase_test.hpp"
#include "app/machine/clocks.hpp"
#include "app/machine/surroundings.hpp"
#include "core/session/keeping.hpp"

#include <algorithm>

namespace qb {

namespace {

template <typename... Handlers>
struct handle : Handlers... {
  using Handlers::operator()...;
};
template <typename... Handlers>
handle(Handlers...) -> handle<Handlers...>;

} // namespace

void shell::carry_out(const wish& w, const clock_reading& r) {
  trouble_.clear();
  // While the record cannot be opened only facts are taken, to be written later.
  const bool fact = std::holds_alternative<payload>(w) || std::holds_alternative<record_all>(w);
  if (!running_ && !unwritten_.empty() && !fact) return;
  std::visit(handle{[&](const payload& p) { record(p, r); },
                    [&](const record_all& all) {
                      for (const payload& p : all.facts) {
                        // What is not written is asked again; only help is not.
                        if (!unwritten_.empty() && !std::holds_alternative<reported_unwell>(p))
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
                    [&](const hand_over& h) { write_soon(w, h.to); },
                    [&](const write_reminder_files& h) { write_soon(w, h.to); },
                    [&](const write_papers& h) { write_soon(w, h.to); },
                    [&](const files_seen&) { written_ = written_files{}; },
                    [&](const begin_anew&) { forget_running(); },
                    [&](const open_earlier&) {
                      if (const auto done = open_newest(); !done) trouble_ = sentence(done.error());
                    },
                    [&](const erase_test&) { erase_running(); }},
             w);
}

void shell::record(payload p, const clock_reading& r) {
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
void shell::begin_test(payload first, const clock_reading& r) {
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

void shell::submit(const command& c, const clock_reading& r) {
  const auto done = running_->session().submit(c, r);
  if (done) {
    const auto* list = std::get_if<reported_checklist>(&c.wanted);
    const bool leaves_side_page = std::holds_alternative<plan_made>(c.wanted) ||
                                  std::holds_alternative<reported_person>(c.wanted) ||
                                  std::holds_alternative<reported_ready>(c.wanted) ||
                                  (list != nullptr && list->name != kept_list);
    if (leaves_side_page) ui_.open.clear();
    return;
  }
  if (done.error().kind == refusal_kind::machine) {
    return keep_for_later(c, r);
  }
  trouble_ = words_.has(done.error().where) ? words_(done.error().where) : done.error().expected;
}

// Looked for only where it is said: on the pages of erasing.
bool shell::has_others() const {
  if (ui_.open != "erase" && ui_.open != "erased") return false;
  const auto all = journals_in(tests_folder(options_.data, clock_.practice()));
  return std::any_of(all.begin(), all.end(), [&](const std::string& path) {
    return !running_ || running_->path() != path;
  });
}

void shell::forget_running() {
  running_.reset();
  ui_ = ui_state{};
  written_ = written_files{};
  waits_.reset();
  waits_for_.reset();
  shared_.reset();
  notice_since_.reset();
  tubes_gone_ = false;
  codes_.clear();
  codes_seq_ = 0;
}

// The journal is emptied while it is still this copy's alone; its files go once it is closed.
void shell::erase_running() {
  if (!running_ || !unwritten_.empty()) return;
  const auto& samples = current().samples;
  const bool tubes = std::any_of(samples.begin(), samples.end(),
                                 [](const sample_state& t) { return t.taken.has_value(); });
  if (const auto erased = running_->erase(); !erased) {
    trouble_ = words_("erase.failed");
    return;
  }
  const std::string path = running_->path();
  forget_running();
  tubes_gone_ = tubes;
  plan_zone_.reset();
  ui_.open = "erased";
  auto gone = remove_erased(options_.data, path);
  if (gone && !clock_.practice()) gone = erase_practice(options_.data);
  if (!gone) trouble_ = words_("erase.rest");
}

void shell::switch_practice(bool on) {
  const std::int64_t real = read_clocks().wall_ms;
  clock_ = on ? test_clock(practice_base{real, real, 1}) : test_clock();
  options_.rehearsal = on;
  if (const auto opened = open_newest(); !opened) trouble_ = sentence(opened.error());
  if (on) keep_base(clock_.base());
}

} // namespace qb
