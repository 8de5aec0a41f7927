// What uses that header.
// Bad on purpose: tests/rules/run must find it.
#include "core/plan/window.hpp"

namespace qb::inline plans {

int everything(const explained& window) {
  return is_open(window) ? twice(width(window) + height(window)) : length(window);
}

} // namespace qb::inline plans
