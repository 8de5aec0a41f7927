// Drawing in logical pixels: lines, shapes and set type on the window's draw list.
// Everything the patient sees goes through here, so that one number scales all of it.
#pragma once

#include "app/patient/theme/fonts.hpp"
#include "app/patient/theme/theme.hpp"

#include <string>
#include <string_view>
#include <vector>

struct ImDrawList;

namespace qb::inline ui {

// A place in logical pixels, origin top left.
struct point {
  float x{};
  float y{};
};

// A rectangle in logical pixels, origin top left.
struct box {
  float x{};
  float y{};
  float w{};
  float h{};

  [[nodiscard]] float right() const { return x + w; }
  [[nodiscard]] float bottom() const { return y + h; }
  [[nodiscard]] point centre() const { return {x + w / 2, y + h / 2}; }
  [[nodiscard]] box inset(float dx, float dy) const {
    return {x + dx, y + dy, w - 2 * dx, h - 2 * dy};
  }
};

// Where a line of text stands in its box.
enum class align { left, centre, right };

// Lines of one paragraph, broken to a width.
struct lines {
  std::vector<std::string> text;
  float leading{}; // distance of baselines
  [[nodiscard]] float height() const { return leading * static_cast<float>(text.size()); }
};

// Draws at once, over what was drawn before. Fonts and list must outlive it.
class pen {
public:
  pen(const fonts& set, ImDrawList* list) : fonts_(&set), list_(list), scale_(set.scale) {}

  // Shapes. `width` of a stroke in logical pixels; angles in turns clockwise from twelve o'clock.
  void line(point a, point b, colour c, float width) const;
  void path(const std::vector<point>& points, colour c, float width, bool closed = false) const;
  void fill(const std::vector<point>& convex, colour c) const;
  void fill_box(box b, colour c, float radius = 0) const;
  void frame(box b, colour c, float width, float radius = 0) const;
  void disc(point centre, float radius, colour c) const;
  void ring(point centre, float radius, colour c, float width) const;
  void arc(point centre, float radius, float from, float to, colour c, float width) const;
  void dashes(point a, point b, colour c, float width, float dash = 4) const;
  // A tick, a cross and an arrow head, drawn because the fonts have none; they fill a square.
  void tick(box square, colour c, float width) const;
  void cross(box square, colour c, float width) const;
  void chevron(box square, colour c, float width, bool to_the_right) const;

  // Type. One line with the top of its leading box at `top_left`; nothing is cut or broken.
  void text(face f, point top_left, colour c, std::string_view words, float leading = 0) const;
  void text_in(face f, box b, colour c, std::string_view words, align a = align::centre) const;
  void set_lines(face f, box b, colour c, const lines& set, align a = align::left) const;
  // Figures in cells of one width, so that a running countdown does not jiggle.
  void figures(face f, point centre, colour c, std::string_view digits) const;
  [[nodiscard]] float figures_width(face f, std::string_view digits) const;

  [[nodiscard]] float width(face f, std::string_view words) const;
  // Broken at spaces (never at a no-break space); a word wider than the line is broken inside.
  // `balanced` makes the lines of about equal length.
  [[nodiscard]] lines wrap(face f, std::string_view words, float width,
                           bool balanced = false) const;
  // The width of the longest word: what a line must hold so that none is broken.
  [[nodiscard]] float widest_word(face f, std::string_view words) const;

  [[nodiscard]] float scale() const { return scale_; }
  [[nodiscard]] const fonts& faces() const { return *fonts_; }

private:
  const fonts* fonts_;
  ImDrawList* list_;
  float scale_;
};

} // namespace qb::inline ui
