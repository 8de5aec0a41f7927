// The findings of the preparation: rules not kept or answered, slips, moves, what was agreed.
// A file of its own, so that the samples' findings stay readable.
#pragma once

#include "core/findings/findings.hpp"

namespace qb::inline findings {

// How a start at `start` keeps the preparation, given the plan and what was told until `now`. Empty
// where everything that can be known is kept.
[[nodiscard]] std::vector<finding> preparation_found(const state& s, const clock_reading& now,
                                                     instant start, const zone& z);

} // namespace qb::inline findings
