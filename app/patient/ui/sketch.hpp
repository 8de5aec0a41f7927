// A small drawing in a square of 100 by 100 units, for the pictures.
// Units keep the pictures' coordinates readable and let one drawing serve every size.
#pragma once

#include "app/patient/ui/pen.hpp"
#include "app/patient/ui/tube.hpp"

#include <algorithm>
#include <vector>

namespace qb::inline ui {

// A pen that takes units instead of pixels.
class sketch {
public:
  // The square is centred in the box; lines keep their weight however small it gets.
  sketch(const pen& p, box b, const theme& colours)
      : pen_(p),
        theme_(colours),
        unit_(std::min(b.w, b.h) / 100),
        origin_{b.x + (b.w - 100 * unit_) / 2, b.y + (b.h - 100 * unit_) / 2} {}

  [[nodiscard]] point at(float x, float y) const {
    return {origin_.x + x * unit_, origin_.y + y * unit_};
  }
  [[nodiscard]] box area(float x, float y, float w, float h) const {
    return {origin_.x + x * unit_, origin_.y + y * unit_, w * unit_, h * unit_};
  }
  [[nodiscard]] float length(float units) const { return units * unit_; }

  void stroke(const std::vector<point>& units, colour c, float weight = 1) const {
    pen_.path(placed(units), c, line() * weight);
  }
  // A smooth line through all points.
  void curve(const std::vector<point>& units, colour c, float weight = 1) const;
  void outline(const std::vector<point>& units, colour c, float weight = 1) const {
    pen_.path(placed(units), c, line() * weight, true);
  }
  void fill(const std::vector<point>& units, colour c) const { pen_.fill(placed(units), c); }
  void fill_box(float x, float y, float w, float h, colour c, float radius = 0) const {
    pen_.fill_box(area(x, y, w, h), c, length(radius));
  }
  void frame(float x, float y, float w, float h, colour c, float radius = 0) const {
    pen_.frame(area(x, y, w, h), c, line(), length(radius));
  }
  void disc(float x, float y, float r, colour c) const { pen_.disc(at(x, y), length(r), c); }
  void ring(float x, float y, float r, colour c, float weight = 1) const {
    pen_.ring(at(x, y), length(r), c, line() * weight);
  }
  void arc(float x, float y, float r, float from, float to, colour c, float weight = 1) const {
    pen_.arc(at(x, y), length(r), from, to, c, line() * weight);
  }
  void tube(float x, float y, float w, float h, float filling, bool lid) const {
    tube_look look;
    look.line = theme_.ink;
    look.filled_with = theme_.now;
    look.width = line();
    look.filling = filling;
    look.lid = lid;
    draw_tube(pen_, area(x, y, w, h), look);
  }
  [[nodiscard]] float line() const { return std::max(theme_.stroke, 2.2F * unit_); }
  [[nodiscard]] const theme& colours() const { return theme_; }
  [[nodiscard]] const pen& hand() const { return pen_; }

private:
  [[nodiscard]] std::vector<point> placed(const std::vector<point>& units) const {
    std::vector<point> out;
    out.reserve(units.size());
    for (const point& p : units)
      out.push_back(at(p.x, p.y));
    return out;
  }

  pen pen_;
  theme theme_;
  float unit_;
  point origin_;
};

} // namespace qb::inline ui
