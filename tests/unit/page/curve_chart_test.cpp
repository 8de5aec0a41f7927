// The upright axis of the curve: it holds the greatest value, with few marks at round numbers.
#include "app/page/curve_chart.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using qb::page::axis_scale;
using qb::page::scale_for;

TEST_CASE("an axis ends at or above the greatest value and has two to six marks above zero") {
  for (double greatest = 0; greatest <= 5000; greatest += 0.5) {
    const axis_scale s = scale_for(greatest);
    INFO(greatest);
    CHECK(s.end >= std::max(greatest, 1.0));
    CHECK(s.step >= 1);
    CHECK(s.end / s.step <= 6);
    CHECK(std::fmod(s.end, s.step) == 0);
  }
}

TEST_CASE("axis marks are 1, 2 or 5 times a power of ten") {
  CHECK(scale_for(52).step == 20);
  CHECK(scale_for(52).end == 60);
  CHECK(scale_for(24).step == 5);
  CHECK(scale_for(9).step == 2);
  CHECK(scale_for(480).step == 100);
}
