// The curve of both gases at true minutes, with the symptoms under it on the same line of time.
// Black and white by design: hydrogen is a whole line with filled circles, methane a dashed line
// with open squares, each named at its end, so that neither colour nor a legend is needed.
#pragma once

#include "app/page/canvas.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::page {

// One reading, or one score.
struct chart_point {
  double minute{0};
  double value{0};
};

// A gas. Points by rising minute; a missing reading is no point. The line goes on without it, but
// not over a tube that was not taken.
struct chart_gas {
  std::string name; // as it stands at the line's end
  std::vector<chart_point> points;
};

// What a criterion asks, as a level in ppm: up to a minute, or all along.
struct chart_level {
  double value{0};
  std::optional<double> until;
  std::string words;
};

// What stands under the axis at a tube's minute.
struct chart_tube {
  double minute{0};
  std::string words;  // "4", "4 late"
  bool missed{false}; // at its due minute: drawn as a cross
};

// A symptom's scores; one that was skipped is no point and leaves a gap.
struct chart_track {
  std::string name;
  std::vector<chart_point> points;
};

// All that one chart shows; every minute in it is one of `axis`.
struct curve_chart {
  std::string axis; // "minutes since tube 1 closed"
  std::string unit; // "ppm", and what it was corrected to
  double first{0};  // the axis' ends, in minutes
  double last{0};
  double step{15}; // between its marks, where these fit; else twice that, and so on
  chart_gas hydrogen;
  chart_gas methane;
  std::optional<chart_point> baseline; // of hydrogen
  std::vector<chart_level> levels;
  std::optional<double> window; // a criterion's last minute
  double slack{0};              // minutes past it that still count
  std::vector<chart_tube> tubes;
  std::vector<chart_track> tracks;
  double most_score{10};
  // What lies far from all else: beyond the axis, each named with its minute. A line of time that
  // reached it would show the others as one point.
  std::vector<std::string> apart;
};

// How high it will be, and the drawing itself: its top left corner at x, y, that wide.
[[nodiscard]] double chart_height(const curve_chart& chart);
void draw_chart(canvas& c, const curve_chart& chart, double x, double y, double width);

// The end of an axis of values, and the step between its marks: 1, 2 or 5 times a power of ten.
struct axis_scale {
  double end{1};
  double step{1};
};
[[nodiscard]] axis_scale scale_for(double greatest);

} // namespace qb::page
