// A box's tubes as they stand now: what its last entry told, less what a named person took back.
#pragma once

#include "core/receiving/kit_rows.hpp"

#include <vector>

namespace qb::inline receiving {

// Of the last of those boxes that told any. `rulings` are in the order in which they were said.
[[nodiscard]] std::vector<received_tube> standing_tubes(const std::vector<arrival>& boxes,
                                                        const std::vector<received_tube>& tubes,
                                                        const std::vector<ruling>& rulings);

} // namespace qb::inline receiving
