// What differs between two frames: the part of the picture that must be painted again.
#pragma once

#include <imgui.h>

#include <optional>
#include <vector>

namespace qb::glass {

// A part of the picture in pixels, from its upper left; right and below are outside it.
struct part {
  float left{};
  float top{};
  float right{};
  float bottom{};

  [[nodiscard]] bool empty() const { return left >= right || top >= bottom; }
  [[nodiscard]] bool meets(const part& other) const {
    return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
  }
};

// Boxes round the three corners of a triangle, a pixel wider; round two parts; and of what both
// have.
[[nodiscard]] part around(const ImVec2& a, const ImVec2& b, const ImVec2& c);
[[nodiscard]] part around(const part& a, const part& b);
[[nodiscard]] part common(const part& a, const part& b);

// One frame's shapes, kept to be compared with the next.
class drawn_shapes {
public:
  // Keeps these, and says which few parts differ from those kept before: boxes round all triangles
  // that came, went or changed, on whole pixels, none meeting another. Nothing where that cannot be
  // said: then it is all.
  std::optional<std::vector<part>> replace_by(const ImDrawData& data);

private:
  struct list {
    std::vector<ImDrawVert> points;
    std::vector<ImDrawIdx> corners;
    std::vector<ImDrawCmd> commands;
  };
  std::vector<list> lists_;

  static bool compare(const list& before, const ImDrawList& now, std::vector<part>& parts);
};

} // namespace qb::glass
