// A device that several people use: the open test is erased when its time is over and a notice
// stood on the screen, and tests that nobody opens any more go too.
#include "app/handover/erase_test.hpp"
#include "app/machine/clocks.hpp"
#include "app/patient/shell/shell.hpp"
#include "core/session/keeping.hpp"

namespace qb {

namespace {

// Whether the closed test at `journal` is due. One that cannot be read is nobody's to erase.
bool is_due(const std::string& journal, const clock_reading& r) {
  const auto open = open_journal(journal);
  if (!open || open->events.empty()) return false;
  const auto until = kept_until_of(fold_events(open->events), open->events, r);
  return until && until->due;
}

} // namespace

// Those the person agreed to; before that the device's own.
const lab_profile& shell::terms() const {
  const state& s = current();
  return s.profile ? *s.profile : profile_->value;
}

void shell::keep_shared(const clock_reading& r) {
  shared_.reset();
  if (!profile_->value.kiosk && !terms().kiosk) return;
  sweep_others(r);
  if (!running_) return;
  const auto until = kept_until_of(current(), running_->session().events(), r);
  if (!until || !until->due) notice_since_.reset();
  if (!until) return;
  shared_ = shared_device{until->at, std::nullopt};
  if (!until->due) return;
  if (!notice_since_) notice_since_ = since_boot();
  const duration left = *notice_since_ + terms().kiosk->notice - since_boot();
  if (left > duration{0}) {
    shared_->left = left;
    return;
  }
  erase_running();
}

// They were told of it on their own pages. While somebody practises, the test that stands behind
// the practice is still theirs to come back to.
void shell::sweep_others(const clock_reading& r) {
  constexpr std::chrono::hours often_enough{1}; // number: the terms are in hours
  const duration now = since_boot();
  if (clock_.practice() || (swept_at_ && now - *swept_at_ < often_enough)) return;
  swept_at_ = now;
  for (const std::string& journal : journals_in(tests_folder(options_.data, false))) {
    if (running_ && running_->path() == journal) continue;
    if (!is_due(journal, r)) continue;
    // Refused by the disk it is tried again in an hour.
    (void)erase_closed_test(options_.data, journal);
  }
}

} // namespace qb
