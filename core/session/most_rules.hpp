// How many different questions, washouts and hindrances a state keeps, beyond any protocol's.
// Each fact looks through those kept before it: a record with as many names as facts would be
// worked on for minutes, at each look. What comes after is in the record, and a finding says so.
#pragma once

#include "core/session/limits.hpp"

#include <cstddef>

namespace qb::inline sessions {

// A test asks at most `most_items` of each; a plan may have been of other tests before.
inline constexpr std::size_t most_kept_rules = 4 * most_items;

} // namespace qb::inline sessions
