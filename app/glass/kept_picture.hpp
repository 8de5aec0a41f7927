// The window's picture, kept between frames, so that a frame paints only what differs.
// After a swap the window's own buffer holds nothing certain, hence a texture of ours.
#pragma once

#include "app/glass/damage.hpp"
#include "app/glass/window.hpp"

namespace qb::glass {

// Needs the window's context while it lives.
class kept_picture {
public:
  kept_picture() = default;
  kept_picture(const kept_picture&) = delete;
  kept_picture& operator=(const kept_picture&) = delete;
  ~kept_picture();

  // Paints the present draw data into the window's back buffer; `all` of it, or, where it knows
  // what was painted before, what differs from that.
  void paint(frame_size size, bool all);

private:
  [[nodiscard]] bool make(frame_size size);
  void let_go();

  frame_size size_;
  unsigned texture_{0};
  unsigned buffer_{0};
  bool impossible_{false}; // this OpenGL paints into no texture: always all, straight away
  drawn_shapes shapes_;
};

} // namespace qb::glass
