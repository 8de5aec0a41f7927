// Who asks those bounds.
// Bad on purpose: tests/rules/run must find it.
#include "core/protocol/plausible.hpp"

namespace qb::inline protocols {

bool is_plausible(std::int64_t days) {
  return days <= most_rule_days;
}

} // namespace qb::inline protocols
