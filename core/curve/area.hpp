// Areas under a curve by the trapezoid rule, at the true minutes, in ppm x min.
// A missing reading is left out: the line goes from its neighbour before to its neighbour after.
#pragma once

#include "core/curve/curve.hpp"

namespace qb::inline curves {

// The areas of one gas, from its first reading to its last. Nothing where there are fewer than two,
// or where one is outside the analyser's range.
// `above_baseline` is the trapezoid of the differences to the baseline's reading, with their sign:
// what is below it is taken off. Nothing without a baseline's reading.
struct curve_area {
  std::optional<double> total;
  std::optional<double> above_baseline;
};

// Of H2 with `&curve_sample::h2`, of CH4 with `&curve_sample::ch4`.
[[nodiscard]] curve_area area_of(const curve& c, std::optional<exact> curve_sample::*gas);

} // namespace qb::inline curves
