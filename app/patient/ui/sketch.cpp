// The one part of a sketch that needs thought: a smooth line through given points.
// Each piece between two points leans on its neighbours (a Catmull-Rom spline).
#include "app/patient/ui/sketch.hpp"

namespace qb::inline ui {

void sketch::curve(const std::vector<point>& units, colour c, float weight) const {
  constexpr int steps = 8;
  std::vector<point> smooth;
  for (std::size_t i = 0; i + 1 < units.size(); ++i) {
    const point& p0 = units[i == 0 ? 0 : i - 1];
    const point& p1 = units[i];
    const point& p2 = units[i + 1];
    const point& p3 = units[std::min(i + 2, units.size() - 1)];
    for (int n = 0; n < steps; ++n) {
      const float t = static_cast<float>(n) / steps;
      const auto along = [t](float a, float b, float d, float e) {
        return 0.5F * (2 * b + (d - a) * t + (2 * a - 5 * b + 4 * d - e) * t * t +
                       (3 * b - a - 3 * d + e) * t * t * t);
      };
      smooth.push_back({along(p0.x, p1.x, p2.x, p3.x), along(p0.y, p1.y, p2.y, p3.y)});
    }
  }
  if (!units.empty()) smooth.push_back(units.back());
  stroke(smooth, c, weight);
}

} // namespace qb::inline ui
