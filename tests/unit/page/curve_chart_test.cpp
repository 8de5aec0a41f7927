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

TEST_CASE("an axis of years has as few marks as one of hours, and what lies apart is said") {
  using namespace qb::page;
  for (const double days : {0.1, 365.0, 3650.0, 20000.0}) {
    curve_chart chart;
    chart.axis = "minutes since tube 1 was closed";
    chart.unit = "ppm";
    chart.last = days * 24 * 60;
    chart.hydrogen = {"Hydrogen H2", {{0, 4}, {chart.last, 30}}};
    chart.apart = {"Apart, not on this axis: tube 10 at minute 525600"};
    canvas c("Chart", "2027-04-06T10:05:00Z");
    draw_chart(c, chart, mm(20), mm(20), mm(170));
    const auto drawn = c.finish();
    REQUIRE(drawn);
    CHECK(drawn->size() < 100000);
  }
}
