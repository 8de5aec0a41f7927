// WCAG 2.2's contrast of two colours: what the looks are held to.
// A formula of the tests alone, since the programs choose no colour by it.
#pragma once

#include "app/patient/theme/theme.hpp"

#include <algorithm>
#include <cmath>

namespace qb::test {

// Relative luminance, 0 (black) to 1 (white).
[[nodiscard]] inline double luminance(colour c) {
  const auto linear = [](unsigned char channel) {
    const double part = channel / 255.0;
    return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

// 1 to 21. Text keeps at least 7 (success criterion 1.4.6), edges and marks that carry meaning at
// least 3 (1.4.11).
[[nodiscard]] inline double contrast(colour one, colour other) {
  const double a = luminance(one);
  const double b = luminance(other);
  return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

} // namespace qb::test
