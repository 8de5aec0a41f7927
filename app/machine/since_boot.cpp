// The even time of a look at the clocks.
#include "app/machine/clocks.hpp"

namespace qb::inline machines {

std::chrono::milliseconds since_boot(const machine_clocks& m) {
  return std::chrono::milliseconds{m.boot_ms >= 0 ? m.boot_ms : m.wall_ms};
}

} // namespace qb::inline machines
