// A notice stands its whole time on the screen before anything is erased.
#include "app/patient/shell/sharing.hpp"

namespace qb::inline shells {

sharing::answer sharing::look(const std::optional<kept_until>& until, duration notice,
                              duration evenly) {
  if (!until || !until->due) notice_since_.reset();
  if (!until) return {};
  if (!until->due) return {shared_device{until->at, std::nullopt}, false};
  if (!notice_since_) notice_since_ = evenly;
  const duration left = *notice_since_ + notice - evenly;
  if (left > duration{0}) return {shared_device{until->at, left}, false};
  return {shared_device{until->at, std::nullopt}, true};
}

bool sharing::sweep_due(duration evenly) {
  constexpr std::chrono::hours often_enough{1}; // the terms are in hours
  if (swept_at_ && evenly - *swept_at_ < often_enough) return false;
  swept_at_ = evenly;
  return true;
}

} // namespace qb::inline shells
