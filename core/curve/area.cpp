// The sum of trapezoids. Areas are no edges, so they are reckoned in binary fractions.
#include "core/curve/area.hpp"

namespace qb::inline curves {

curve_area area_of(const curve& c, std::optional<exact> curve_sample::*gas) {
  curve_area out;
  const curve_sample* first = nullptr;
  const curve_sample* before = nullptr;
  double total = 0;
  for (const curve_sample& s : c) {
    if (!(s.*gas)) continue;
    if (range_of(s, gas) != reading_range::within) return {};
    if (before == nullptr)
      first = &s;
    else
      total += (s.minute - before->minute).rounded() * (*(s.*gas) + *(before->*gas)).rounded() / 2;
    before = &s;
  }
  if (before == first) return out;
  out.total = total;
  const curve_sample* base = baseline_of(c);
  // The baseline is the curve's first sample, so with a reading it is the gas's first too.
  if (base != nullptr && base->*gas)
    out.above_baseline =
        total - (before->minute - first->minute).rounded() * (*(base->*gas)).rounded();
  return out;
}

} // namespace qb::inline curves
