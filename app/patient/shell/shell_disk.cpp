// A disk that refuses: what was pressed is kept in memory with its own time, the person is told
// what to write on paper, and it is written when the disk takes it.
#include "app/patient/shell/shell.hpp"

#include <algorithm>

namespace qb {

namespace {

// What to write on paper beside the time; no press but these has a time that counts.
std::string paper_key(const command& c) {
  if (std::holds_alternative<tube_closed>(c.wanted)) return "trouble.paper.closed";
  if (std::holds_alternative<drink_started>(c.wanted)) return "trouble.paper.drink-began";
  if (std::holds_alternative<drink_ended>(c.wanted)) return "trouble.paper.drink-empty";
  return "";
}

std::string tube_of(const command& c) {
  const auto* closed = std::get_if<tube_closed>(&c.wanted);
  return closed == nullptr ? "" : std::to_string(closed->sample.value());
}

} // namespace

// The first press is the one that counts; the same pressed again while nothing moves is the same.
void shell::keep_for_later(const command& c, const clock_reading& r) {
  const auto same = [&](const auto& kept) { return kept.first.wanted.index() == c.wanted.index(); };
  if (std::none_of(unwritten_.begin(), unwritten_.end(), same)) unwritten_.emplace_back(c, r);
  // Help does not wait for a disk.
  if (std::holds_alternative<reported_unwell>(c.wanted)) {
    ui_.open = "unwell";
    ui_.page = 0;
  }
}

// After a failed write nothing more is written until the file was opened and read again.
void shell::recover() {
  if (running_) {
    lost_path_ = running_->path();
    without_record_ = running_->session().current(); // stays on the screen meanwhile
    running_.reset();                                // the lock must be let go first
  }
  auto again = running_test::open(lost_path_);
  if (!again) return; // tried again at the next look
  running_ = std::move(*again);
  without_record_ = state{};
  while (!unwritten_.empty()) {
    const auto& [wanted, when] = unwritten_.front();
    const auto done = running_->session().submit(wanted, when);
    if (!done && done.error().kind == refusal_kind::machine) return;
    unwritten_.pop_front(); // written, or refused as it would have been then
  }
}

void shell::tell_trouble(view& v) const {
  v.disk_failed = !unwritten_.empty();
  v.trouble = v.disk_failed ? words_("trouble.disk") : trouble_;
  for (const auto& [c, at] : unwritten_) {
    const std::string key = paper_key(c);
    if (key.empty()) continue;
    v.paper_what = words_(key, {{"n", tube_of(c)}});
    v.paper_time = clock_text(clock_.place().civil_at(at.wall));
    return; // the screen stands still meanwhile: there is one
  }
}

} // namespace qb
