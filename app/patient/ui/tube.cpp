// The tube's outline: two walls, a half-round foot, a rim.
// The filling follows the wall at a small distance, as liquid or breath in a drawing does.
#include "app/patient/ui/tube.hpp"

#include <algorithm>
#include <cmath>

namespace qb::inline ui {

namespace {

constexpr float pi = 3.14159265F;

// Wall, foot, wall, from the top left to the top right.
std::vector<point> u_shape(box b) {
  const float r = b.w / 2;
  const float foot = b.bottom() - r;
  std::vector<point> points{{b.x, b.y}};
  constexpr int steps = 14;
  for (int i = 0; i <= steps; ++i) {
    const float turn = pi - pi * static_cast<float>(i) / steps;
    points.push_back({b.x + r + r * std::cos(turn), foot + r * std::sin(turn)});
  }
  points.push_back({b.right(), b.y});
  return points;
}

void fill_tube(const pen& p, box glass, const tube_look& look) {
  const float air = look.width * 0.5F + 1.5F;
  box inside{glass.x + air, glass.y + air, glass.w - 2 * air, glass.h - 2 * air};
  const float least = inside.w / 2;
  const float level = std::max(least, inside.h * std::min(look.filling, 1.0F));
  inside.y = inside.bottom() - level;
  inside.h = level;
  p.fill(u_shape(inside), look.filled_with);
}

} // namespace

void draw_tube(const pen& p, box glass, const tube_look& look) {
  if (look.filling > 0) fill_tube(p, glass, look);
  const std::vector<point> wall = u_shape(glass);
  if (look.broken) {
    for (std::size_t i = 0; i + 1 < wall.size(); ++i) {
      const bool straight = i == 0 || i + 2 == wall.size();
      if (straight) {
        p.dashes(wall[i], wall[i + 1], look.line, look.width, 3.5F);
      } else if (i % 4 < 2) {
        p.line(wall[i], wall[i + 1], look.line, look.width);
      }
    }
    return;
  }
  p.path(wall, look.line, look.width);
  const float lip = std::max(2.0F, glass.w * 0.12F);
  if (look.lid) {
    const float high = std::max(6.0F, glass.w * 0.34F);
    p.fill_box({glass.x - lip, glass.y - high * 0.6F, glass.w + 2 * lip, high}, look.line, 2);
  } else {
    p.path({{glass.x - lip, glass.y}, {glass.x + lip * 0.2F, glass.y}}, look.line, look.width);
    p.path({{glass.right() - lip * 0.2F, glass.y}, {glass.right() + lip, glass.y}}, look.line,
           look.width);
  }
}

} // namespace qb::inline ui
