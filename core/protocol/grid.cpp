// Counting tubes, and the shortest gap against the bounds that hold for this test.
#include "core/protocol/grid.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline protocols {

std::optional<std::chrono::seconds> shortest_gap(const std::vector<std::chrono::minutes>& offsets) {
  std::optional<std::chrono::seconds> out;
  for (std::size_t i = 1; i < offsets.size(); ++i) {
    const std::chrono::seconds gap = offsets[i] - offsets[i - 1];
    out = out ? std::min(*out, gap) : gap;
  }
  return out;
}

std::vector<int> spare_tubes(const protocol& p) {
  std::vector<int> out;
  for (int n = static_cast<int>(p.samples()) + 1; n <= p.tubes_in_kit; ++n)
    out.push_back(n);
  return out;
}

result<void> grid_fits(const protocol& p, const lab_profile& lab) {
  const sample_bounds& b = p.bounds ? *p.bounds : lab.bounds;
  const auto gap = shortest_gap(p.offsets);
  const std::chrono::seconds together = b.last_call + b.early;
  if (!gap || together < *gap) return {};
  return tl::unexpected(
      refusal{refusal_kind::out_of_range, "", "grid.offsets_min",
              fmt::format("two samples {} s apart", gap->count()),
              fmt::format("more than last_call_s and early_s of '{}' together, {} s; or "
                          "sample_bounds of the protocol's own",
                          p.bounds ? p.id : lab.id, together.count())});
}

} // namespace qb::inline protocols
