// The findings of the preparation: rules not kept or answered, slips, moves, what was agreed.
// A file of its own, so that the samples' findings stay readable.
#pragma once

#include "core/findings/findings.hpp"

namespace qb {

// As `preparation_findings`, with the moment it is asked at for what was pressed.
[[nodiscard]] std::vector<finding> preparation_found(const state& s, const clock_reading& now,
                                                     instant start, const zone& z);

} // namespace qb
