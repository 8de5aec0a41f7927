// Shapes on Dear ImGui's draw list; the type is in typeset.cpp.
// Logical pixels become those of the screen here and in typeset.cpp.
#include "app/patient/ui/pen.hpp"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace qb::inline ui {

namespace {

constexpr float full_turn = 6.2831853F;

ImU32 raw(colour c) {
  return IM_COL32(c.r, c.g, c.b, 255);
}

ImVec2 scaled(point p, float s) {
  return {p.x * s, p.y * s};
}

// A turn begins at the top and goes as a clock's hands do.
point on_circle(point centre, float radius, float turns) {
  const float angle = (turns - 0.25F) * full_turn;
  return {centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)};
}

} // namespace

void pen::line(point a, point b, colour c, float width) const {
  const float w = std::max(1.0F, width * scale_);
  // Hairlines along an axis are filled boxes on whole pixels: crisp, never grey.
  if (width <= 1.5F && (a.x == b.x || a.y == b.y)) {
    const float thick = std::round(w);
    const float x = std::floor(std::min(a.x, b.x) * scale_);
    const float y = std::floor(std::min(a.y, b.y) * scale_);
    const float across = a.x == b.x ? thick : std::round(std::abs(a.x - b.x) * scale_);
    const float down = a.x == b.x ? std::round(std::abs(a.y - b.y) * scale_) : thick;
    list_->AddRectFilled({x, y}, {x + across, y + down}, raw(c));
    return;
  }
  list_->AddLine(scaled(a, scale_), scaled(b, scale_), raw(c), w);
}

void pen::path(const std::vector<point>& points, colour c, float width, bool closed) const {
  for (const point& p : points)
    list_->PathLineTo(scaled(p, scale_));
  list_->PathStroke(raw(c), closed ? ImDrawFlags_Closed : ImDrawFlags_None,
                    std::max(1.0F, width * scale_));
  if (closed || points.empty()) return;
  // Round ends, as a pen leaves them.
  disc(points.front(), width / 2, c);
  disc(points.back(), width / 2, c);
}

void pen::fill(const std::vector<point>& convex, colour c) const {
  // Clockwise, or the soft edge would lie inside the shape.
  float area = 0;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const point& a = convex[i];
    const point& b = convex[(i + 1) % convex.size()];
    area += a.x * b.y - b.x * a.y;
  }
  std::vector<point> order = convex;
  if (area < 0) std::reverse(order.begin(), order.end());
  for (const point& p : order)
    list_->PathLineTo(scaled(p, scale_));
  list_->PathFillConvex(raw(c));
}

void pen::fill_box(box b, colour c, float radius) const {
  const ImVec2 from{std::round(b.x * scale_), std::round(b.y * scale_)};
  const ImVec2 to{std::round(b.right() * scale_), std::round(b.bottom() * scale_)};
  list_->AddRectFilled(from, to, raw(c), radius * scale_);
}

void pen::frame(box b, colour c, float width, float radius) const {
  const ImVec2 from{std::round(b.x * scale_), std::round(b.y * scale_)};
  const ImVec2 to{std::round(b.right() * scale_), std::round(b.bottom() * scale_)};
  list_->AddRect(from, to, raw(c), radius * scale_, 0, std::max(1.0F, width * scale_));
}

void pen::disc(point centre, float radius, colour c) const {
  list_->AddCircleFilled(scaled(centre, scale_), radius * scale_, raw(c));
}

void pen::ring(point centre, float radius, colour c, float width) const {
  list_->AddCircle(scaled(centre, scale_), radius * scale_, raw(c), 0,
                   std::max(1.0F, width * scale_));
}

void pen::arc(point centre, float radius, float from, float to, colour c, float width) const {
  if (to <= from) return;
  // Corners stand at fixed places from where it begins, so that an arc that grows keeps all but its
  // last, and little need be painted again.
  constexpr int corners_a_turn = 128;
  constexpr float least = 1e-4F; // of a turn; a shorter piece at the end has no direction
  const point start = on_circle(centre, radius, from);
  list_->PathLineTo(scaled(start, scale_));
  for (int i = 1; static_cast<float>(i) / corners_a_turn < to - from - least; ++i) {
    const float turns = from + static_cast<float>(i) / corners_a_turn;
    list_->PathLineTo(scaled(on_circle(centre, radius, turns), scale_));
  }
  list_->PathLineTo(scaled(on_circle(centre, radius, to), scale_));
  list_->PathStroke(raw(c), ImDrawFlags_None, width * scale_);
}

void pen::dashes(point a, point b, colour c, float width, float dash) const {
  const float length = std::hypot(b.x - a.x, b.y - a.y);
  if (length <= 0) return;
  const point step{(b.x - a.x) / length, (b.y - a.y) / length};
  for (float at = 0; at < length; at += 2 * dash) {
    const float end = std::min(at + dash, length);
    line({a.x + step.x * at, a.y + step.y * at}, {a.x + step.x * end, a.y + step.y * end}, c,
         width);
  }
}

void pen::tick(box s, colour c, float width) const {
  path({{s.x + s.w * 0.12F, s.y + s.h * 0.55F},
        {s.x + s.w * 0.40F, s.y + s.h * 0.82F},
        {s.x + s.w * 0.90F, s.y + s.h * 0.20F}},
       c, width);
}

void pen::cross(box s, colour c, float width) const {
  path({{s.x + s.w * 0.15F, s.y + s.h * 0.15F}, {s.x + s.w * 0.85F, s.y + s.h * 0.85F}}, c, width);
  path({{s.x + s.w * 0.85F, s.y + s.h * 0.15F}, {s.x + s.w * 0.15F, s.y + s.h * 0.85F}}, c, width);
}

void pen::chevron(box s, colour c, float width, bool to_the_right) const {
  const float near = to_the_right ? 0.34F : 0.66F;
  const float far = to_the_right ? 0.70F : 0.30F;
  path({{s.x + s.w * near, s.y + s.h * 0.15F},
        {s.x + s.w * far, s.y + s.h * 0.5F},
        {s.x + s.w * near, s.y + s.h * 0.85F}},
       c, width);
}

} // namespace qb::inline ui
