// Reconciling wall clock and boot clock.
#include "core/clock/reading.hpp"

#include <algorithm>

namespace qb {

namespace {

bool same_boot(const reading& a, const reading& b) {
  return a.boot && b.boot && a.boot_id == b.boot_id;
}

} // namespace

elapsed between(const reading& earlier, const reading& later) {
  if (same_boot(earlier, later))
    return {std::max(duration{0}, *later.boot - *earlier.boot), certainty::exact};
  return {std::max(duration{0}, later.wall - earlier.wall), certainty::by_wall};
}

std::vector<clock_change> changes_between(const reading& earlier, const reading& later) {
  constexpr std::chrono::seconds tolerance{2};
  std::vector<clock_change> out;
  if (same_boot(earlier, later)) {
    const duration step = (later.wall - earlier.wall) - (*later.boot - *earlier.boot);
    if (step > tolerance || step < -tolerance) out.push_back({clock_change::kind::stepped, step});
  } else if (earlier.boot && later.boot) {
    out.push_back({clock_change::kind::rebooted, duration{0}});
  }
  if (earlier.zone != later.zone) out.push_back({clock_change::kind::zone_changed, duration{0}});
  return out;
}

} // namespace qb
