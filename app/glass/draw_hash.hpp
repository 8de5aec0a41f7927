// A number for the picture Dear ImGui is about to draw.
// Equal numbers mean equal pictures, so nothing need be shown again.
#pragma once

#include <cstdint>

namespace qb::glass {

// In the manner of FNV-1a, over all vertices, indices and commands of the present draw data; 0 when
// there is none.
[[nodiscard]] std::uint64_t draw_hash();

} // namespace qb::glass
