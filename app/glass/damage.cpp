// Two lists of triangles compared: what they begin and end with alike is left out.
// A list's triangles are in the order they are painted in, so what is alike outside the box of all
// others comes out the same.
#include "app/glass/damage.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

namespace qb::glass {

namespace {

constexpr std::size_t corners_each = 3;

bool same_point(const ImDrawVert& a, const ImDrawVert& b) {
  return std::memcmp(&a, &b, sizeof a) == 0;
}

bool same_clip(const ImVec4& a, const ImVec4& b) {
  return a.x == b.x && a.y == b.y && a.z == b.z && a.w == b.w;
}

// Triangles by their points. The commands of the two must agree, so corners count from one start.
struct triangles {
  const ImDrawVert* points;
  const ImDrawIdx* corners;
  std::size_t count; // of triangles

  [[nodiscard]] const ImDrawVert& at(std::size_t triangle, std::size_t corner) const {
    return points[corners[triangle * corners_each + corner]];
  }
};

bool same(const triangles& a, std::size_t i, const triangles& b, std::size_t j) {
  for (std::size_t corner = 0; corner < corners_each; ++corner) {
    if (!same_point(a.at(i, corner), b.at(j, corner))) return false;
  }
  return true;
}

part box_of(const triangles& t, std::size_t i) {
  return around(t.at(i, 0).pos, t.at(i, 1).pos, t.at(i, 2).pos);
}

float area(const part& p) {
  return (p.right - p.left) * (p.bottom - p.top);
}

// Adds a box to those it meets or nearly meets, which makes them one.
void add(std::vector<part>& parts, part box) {
  constexpr float wasted = 40 * 40; // pixels painted in vain that cost less than one part more
  constexpr std::size_t most = 8;
  const auto joins = [&box, &parts](const part& p) {
    const part both = around(p, box);
    return p.meets(box) || area(both) - area(p) - area(box) < wasted || parts.size() > most;
  };
  for (auto found = std::find_if(parts.begin(), parts.end(), joins); found != parts.end();
       found = std::find_if(parts.begin(), parts.end(), joins)) {
    box = around(*found, box);
    parts.erase(found);
  }
  parts.push_back(box);
}

void add_differences(const triangles& before, const triangles& now, std::vector<part>& parts) {
  const bool paired = before.count == now.count;
  const std::size_t shorter = std::min(before.count, now.count);
  std::size_t first = 0;
  while (first < shorter && same(before, first, now, first))
    ++first;
  std::size_t last = 0; // alike at the end
  while (last < shorter - first && same(before, before.count - 1 - last, now, now.count - 1 - last))
    ++last;
  for (std::size_t i = first; i < before.count - last; ++i) {
    if (!paired || !same(before, i, now, i)) add(parts, box_of(before, i));
  }
  for (std::size_t i = first; i < now.count - last; ++i) {
    if (!paired || !same(before, i, now, i)) add(parts, box_of(now, i));
  }
}

// One command alone may have grown or shrunk; of several each must have kept its length.
template <typename Before>
bool comparable(const Before& before, const ImVector<ImDrawCmd>& now) {
  if (before.size() != static_cast<std::size_t>(now.Size)) return false;
  for (std::size_t i = 0; i < before.size(); ++i) {
    const ImDrawCmd& a = before[i];
    const ImDrawCmd& b = now[static_cast<int>(i)];
    const bool length = before.size() == 1 || a.ElemCount == b.ElemCount;
    const bool plain = b.VtxOffset == 0 && a.VtxOffset == 0 && b.UserCallback == nullptr;
    if (!plain || !length || a.TextureId != b.TextureId || !same_clip(a.ClipRect, b.ClipRect))
      return false;
  }
  return true;
}

} // namespace

part around(const ImVec2& a, const ImVec2& b, const ImVec2& c) {
  return {std::floor(std::min({a.x, b.x, c.x})) - 1, std::floor(std::min({a.y, b.y, c.y})) - 1,
          std::ceil(std::max({a.x, b.x, c.x})) + 1, std::ceil(std::max({a.y, b.y, c.y})) + 1};
}

part around(const part& a, const part& b) {
  return {std::min(a.left, b.left), std::min(a.top, b.top), std::max(a.right, b.right),
          std::max(a.bottom, b.bottom)};
}

part common(const part& a, const part& b) {
  return {std::max(a.left, b.left), std::max(a.top, b.top), std::min(a.right, b.right),
          std::min(a.bottom, b.bottom)};
}

bool drawn_shapes::compare(const list& before, const ImDrawList& now, std::vector<part>& parts) {
  if (!comparable(before.commands, now.CmdBuffer)) return false;
  const triangles then{before.points.data(), before.corners.data(),
                       before.corners.size() / corners_each};
  const triangles these{now.VtxBuffer.Data, now.IdxBuffer.Data,
                        static_cast<std::size_t>(now.IdxBuffer.Size) / corners_each};
  add_differences(then, these, parts);
  return true;
}

std::optional<std::vector<part>> drawn_shapes::replace_by(const ImDrawData& data) {
  const auto count = static_cast<std::size_t>(data.CmdListsCount);
  bool known = lists_.size() == count;
  std::vector<part> parts;
  lists_.resize(count);
  for (std::size_t i = 0; i < count; ++i) {
    const ImDrawList& now = *data.CmdLists[i];
    list& kept = lists_[i];
    known = known && compare(kept, now, parts);
    kept.points.assign(now.VtxBuffer.begin(), now.VtxBuffer.end());
    kept.corners.assign(now.IdxBuffer.begin(), now.IdxBuffer.end());
    kept.commands.assign(now.CmdBuffer.begin(), now.CmdBuffer.end());
  }
  return known ? std::optional(std::move(parts)) : std::nullopt;
}

} // namespace qb::glass
