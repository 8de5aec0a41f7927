// Reconciling wall clock and boot clock.
#include "core/clock/clock_reading.hpp"

#include <algorithm>

namespace qb::inline clocks {

namespace {

bool same_boot(const clock_reading& a, const clock_reading& b) {
  return a.boot && b.boot && a.boot_id == b.boot_id;
}

} // namespace

elapsed between(const clock_reading& earlier, const clock_reading& later) {
  if (same_boot(earlier, later)) {
    const duration seen = std::max(duration{0}, *later.boot - *earlier.boot);
    return {seen, certainty::exact, seen, true};
  }
  const duration running = restarted(earlier, later)
                               ? std::max(duration{0}, later.boot->time_since_epoch())
                               : duration{};
  return {std::max(running, later.wall - earlier.wall), certainty::by_wall, running,
          earlier.synchronised && later.synchronised};
}

bool restarted(const clock_reading& earlier, const clock_reading& later) {
  return earlier.boot && later.boot && earlier.boot_id != later.boot_id;
}

elapsed operator+(const elapsed& a, const elapsed& b) {
  const bool exact = a.how == certainty::exact && b.how == certainty::exact;
  return {a.length + b.length, exact ? certainty::exact : certainty::by_wall,
          a.at_least + b.at_least, a.synchronised && b.synchronised};
}

std::vector<clock_change> changes_between(const clock_reading& earlier,
                                          const clock_reading& later) {
  constexpr std::chrono::seconds tolerance{2};
  std::vector<clock_change> out;
  if (same_boot(earlier, later)) {
    const duration step = (later.wall - earlier.wall) - (*later.boot - *earlier.boot);
    if (step > tolerance || step < -tolerance) out.push_back({clock_change::kind::stepped, step});
  } else if (restarted(earlier, later)) {
    out.push_back({clock_change::kind::rebooted, duration{0}});
  }
  if (earlier.zone != later.zone) out.push_back({clock_change::kind::zone_changed, duration{0}});
  return out;
}

} // namespace qb::inline clocks
