// After a failed write nothing more is written until the file was opened and read again.
#include "app/patient/shell/recovery.hpp"

#include <algorithm>

namespace qb {

namespace {

// No press but these has a time that counts.
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

void recovery::keep(const command& c, const clock_reading& r) {
  const auto same = [&](const auto& kept) { return kept.first.wanted.index() == c.wanted.index(); };
  if (std::none_of(unwritten_.begin(), unwritten_.end(), same)) unwritten_.emplace_back(c, r);
}

void recovery::try_again(std::unique_ptr<running_test>& running, state& meanwhile) {
  if (running) {
    path_ = running->path();
    meanwhile = running->session().current();
    running.reset();
  }
  auto again = running_test::open(path_);
  if (!again) return; // tried again at the next look
  running = std::move(*again);
  path_.clear();
  meanwhile = state{};
  while (!unwritten_.empty()) {
    const auto& [wanted, when] = unwritten_.front();
    const auto done = running->session().submit(wanted, when);
    if (!done && done.error().kind == refusal_kind::machine) return;
    unwritten_.pop_front();
  }
}

std::optional<on_paper> recovery::paper() const {
  for (const auto& [c, at] : unwritten_) {
    const std::string key = paper_key(c);
    if (!key.empty()) return on_paper{key, tube_of(c), at.wall};
  }
  return std::nullopt; // the screen stands still meanwhile: there is at most one
}

} // namespace qb
