// What follows from a test's grid: tubes of the kit that are left over, and whether the bounds of
// its samples fit, asked where a protocol without bounds of its own meets a laboratory's profile.
#pragma once

#include "core/protocol/profile.hpp"

namespace qb::inline protocols {

// The shortest time between two samples of a grid; a grid of one sample has none.
[[nodiscard]] std::optional<std::chrono::seconds>
shortest_gap(const std::vector<std::chrono::minutes>& offsets);

// The numbers of the kit's tubes that come after the last sample: they stay empty.
[[nodiscard]] std::vector<int> spare_tubes(const protocol& p);

// Refuses a test in which one breath could be two samples: a gap no longer than the last call of
// one sample and the earliest breath of the next together.
[[nodiscard]] result<void> grid_fits(const protocol& p, const lab_profile& lab);

} // namespace qb::inline protocols
