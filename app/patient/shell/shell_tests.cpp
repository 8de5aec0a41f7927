// Which test runs: the one written last, a new one, practice, or none after it was erased.
#include "app/handover/erase_test.hpp"
#include "app/patient/shell/draft_rows.hpp"
#include "app/patient/shell/shell.hpp"
#include "app/patient/shell/trial.hpp"
#include "app/store/running_index.hpp"

#include <algorithm>
#include <filesystem>

namespace qb::inline shells {

namespace {

// Whether the closed test at `journal` is due to be erased. One that cannot be read is nobody's to
// erase.
bool is_due(const std::string& journal, const clock_reading& r) {
  const auto open = open_journal(journal);
  if (!open || open->events.empty()) return false;
  const auto until = kept_until_of(fold_events(open->events), open->events, r);
  return until && until->due;
}

} // namespace

bool practice_may_begin(const state& s, const clock_reading& r) {
  if (!s.planned || s.ended) return true;
  const bool over = s.grid && what_now(s, r).what == step::finish;
  return over || (!s.grid && !may_start_early(s, r));
}

shell::shell(shell_options o, device_data data, machine& m, cue_player& cues)
    : options_(std::move(o)),
      data_(std::move(data)),
      machine_(m),
      calling_(m, cues),
      writing_(m, data_.texts, options_.data) {}

result<std::unique_ptr<shell>> shell::open(const shell_options& o, machine& m, cue_player& cues) {
  auto data = load_device_data(o.assets, o.profile);
  if (!data) return tl::unexpected(data.error());
  std::unique_ptr<shell> s(new shell(o, std::move(*data), m, cues));
  if (const auto done = handover::finish_erasing(m.files(), o.data); !done)
    return tl::unexpected(done.error());
  if (s->data_.profile.value.kiosk) {
    if (const auto gone = handover::erase_practice(m.files(), o.data); !gone)
      return tl::unexpected(gone.error());
  }
  if (const auto opened = s->open_newest(); !opened) return tl::unexpected(opened.error());
  if (!o.rehearsal) return s;
  if (!practice_may_begin(s->current(), s->clock_.look(m).now))
    return tl::unexpected(refusal{refusal_kind::not_now, "", "--rehearsal",
                                  "a test whose fast has begun",
                                  "practice before the fast, or after the test"});
  s->switch_practice(true);
  return s;
}

// Which test runs, and the rows without which no due time is known. Tried again in a later frame
// where the disk refuses; a test of which nothing is kept yet is not one to come back to.
void shell::keep_beside_record() {
  if (!running_ || running_->session().events().empty()) return;
  running_->keep_key_rows(machine_.files());
  if (noted_as_running_ == running_->path()) return;
  const std::filesystem::path path(running_->path());
  if (note_running(machine_.files(), path.parent_path().string(), path.stem().string()))
    noted_as_running_ = running_->path();
}

// Opens the test that runs, if any, and goes on where it stood.
result<void> shell::open_newest() {
  forget_running();
  trouble_.clear();
  const std::string folder = tests_folder(options_.data, clock_.practice());
  if (auto made = machine_.files().make_folder(folder); !made) return made;
  const auto path = running_journal(folder, handover::journals_in(folder));
  if (!path) return {};
  auto opened = open_whatever(*path, questions_of(data_.tests), machine_.durable());
  if (!opened) return tl::unexpected(opened.error());
  salvaged_ = opened->salvaged;
  on_paper_ = opened->paper;
  nothing_ = std::move(opened->shown);
  running_ = std::move(opened->running);
  if (on_paper_) return {};
  const draft_rows rows = running_->drafts();
  ui_.drafts = drafts_of(rows);
  if (clock_.practice()) {
    const auto kept = rows.find(practice_base_row);
    const auto base = kept == rows.end() ? std::nullopt : parse_practice_base(kept->second);
    if (base) clock_ = test_clock(*base);
    const now_answer now = what_now(current(), clock_.look(machine_).now);
    if (now.what == step::finish && current().exported_at) { // a practice that is over starts anew
      running_.reset();
      ui_ = ui_state{};
      return {};
    }
  }
  if (current().last_reading) greet(clock_.look(machine_).now);
  return {};
}

// What happened while the program was off: a due time that passed is stated, not hidden.
void shell::greet(const clock_reading& r) {
  const state& s = current();
  if (!s.person && !salvaged_) return;
  off_ = between(*s.last_reading, r).length;
  due_while_off_.reset();
  for (std::size_t i = 0; s.grid && i < s.samples.size(); ++i) {
    const auto n = sample_number::from_index(i);
    const instant due = due_on_wall(s, n, r);
    const bool passed = due <= r.wall && due > r.wall - off_;
    if (!s.samples[i].taken && passed) due_while_off_ = n;
  }
  ui_.nav.open_side(salvaged_ ? side_page::salvaged : side_page::returned);
  record(resumed{}, r);
}

bool shell::practice_allowed(const clock_reading& r) const {
  return !clock_.practice() && practice_may_begin(current(), r);
}

// Asked once more: a window may have stood open since before the fast.
void shell::begin_practising(const clock_reading& r, bool trial) {
  if (!practice_allowed(r)) {
    trouble_ = data_.texts("trouble.no-practice");
  } else if (trial) {
    begin_trial();
  } else {
    switch_practice(true);
  }
}

// The agreement opens the record: only now a file is made.
void shell::begin_test(payload first, const clock_reading& r) {
  auto& opening = std::get<opened>(first);
  opening.test_id = machine_.random_name();
  opening.program = options_.program;
  opening.rehearsal = clock_.practice();
  opening.profile_text = data_.profile.canonical_text;
  const std::string folder = tests_folder(options_.data, clock_.practice());
  auto made = running_test::open(journal_path(folder, opening.test_id), machine_.durable());
  if (!made) {
    trouble_ = sentence(made.error());
    return;
  }
  running_ = std::move(*made);
  submit(command{std::move(first)}, r);
}

// Looked for only where it is said: on the pages of erasing.
bool shell::has_others() const {
  if (ui_.nav.open != side_page::erase && ui_.nav.open != side_page::erased) return false;
  const auto all = handover::journals_in(tests_folder(options_.data, clock_.practice()));
  return std::any_of(all.begin(), all.end(), [&](const std::string& path) {
    return !running_ || running_->path() != path;
  });
}

void shell::forget_running() {
  running_.reset();
  nothing_ = state{};
  salvaged_.reset();
  on_paper_.reset();
  draft_refused_ = false;
  ui_ = ui_state{};
  writing_.forget();
  shared_.reset();
  sharing_.forget();
  tubes_gone_ = false;
  under_way_.reset();
  codes_.clear();
  codes_seq_ = 0;
}

// The journal is emptied while it is still this copy's alone; its files go once it is closed.
void shell::erase_running() {
  if (!running_ || recovery_.holds(running_) || saving()) return;
  const auto& samples = current().samples;
  const bool tubes = std::any_of(samples.begin(), samples.end(),
                                 [](const sample_state& t) { return t.taken.has_value(); });
  if (const auto erased = running_->erase(); !erased) {
    trouble_ = data_.texts("erase.failed");
    return;
  }
  const std::string path = running_->path();
  forget_running();
  tubes_gone_ = tubes;
  plan_zone_.reset();
  ui_.nav.open_side(side_page::erased);
  auto gone = handover::remove_erased(machine_.files(), options_.data, path);
  if (gone && !clock_.practice()) gone = handover::erase_practice(machine_.files(), options_.data);
  if (!gone) trouble_ = data_.texts("erase.rest");
  erased_ = machine_.durable().all_written();
}

void shell::switch_practice(bool on) {
  if (on) {
    clock_.begin_practice();
  } else {
    clock_.leave_practice();
  }
  options_.rehearsal = on;
  if (const auto opened = open_newest(); !opened) trouble_ = sentence(opened.error());
}

void shell::begin_trial() {
  switch_practice(true);
  forget_running(); // another practice stays where it is
  const clock_reading r = clock_.look(machine_).now;
  begin_test(opened{}, r);
  if (!running_) return;
  const auto sooner = [](const offered_test& a, const offered_test& b) {
    return a.test.offsets.at(1) < b.test.offsets.at(1); // a protocol has two at least
  };
  const auto shortest = std::min_element(data_.tests.begin(), data_.tests.end(), sooner);
  for (const payload& told : trial_facts(*shortest, r, clock_.place())) {
    if (const auto done = recovery_.tell(command{told}, r, running_); !done) {
      trouble_ = sentence(done.error());
      return;
    }
  }
}

void shell::keep_shared(const frame_time& m) {
  shared_.reset();
  if (!data_.profile.value.kiosk && !terms().kiosk) return;
  sweep_others(m);
  if (!running_) return;
  const auto until = kept_until_of(current(), running_->session().events(), m.now);
  const duration notice = terms().kiosk ? duration{terms().kiosk->notice} : duration{0};
  const sharing::answer answer = sharing_.look(until, notice, m.evenly);
  shared_ = answer.said;
  if (answer.erase_now) erase_running();
}

// They were told of it on their own pages. While somebody practises, the test that stands behind
// the practice is still theirs to come back to.
void shell::sweep_others(const frame_time& m) {
  if (clock_.practice() || recovery_.lost(running_) || !sharing_.sweep_due(m.evenly)) return;
  for (const std::string& journal : handover::journals_in(tests_folder(options_.data, false))) {
    if (running_ && running_->path() == journal) continue;
    if (!is_due(journal, m.now)) continue;
    // Refused by the disk it is tried again in an hour.
    (void)handover::erase_closed_test(machine_.files(), options_.data, journal);
  }
}

} // namespace qb::inline shells
