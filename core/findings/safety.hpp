// The findings of safety: answers taken back, another packet, a drink against what stood against
// it. They come first: they are what a laboratory must see before it reads a gas.
#pragma once

#include "core/findings/findings.hpp"

#include <vector>

namespace qb::inline findings {

// In the order of the events. `z` is the zone in which times of day are worded.
[[nodiscard]] std::vector<finding> safety_findings(const state& s, const zone& z);

} // namespace qb::inline findings
