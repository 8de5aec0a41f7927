// What the window holds, shared by the files that open, run and photograph it.
// Kept out of window.hpp so that who opens a window does not see GLFW.
#pragma once

#include "app/glass/window.hpp"

#include <cstdint>

struct GLFWwindow;

namespace qb::glass {

// GLFW's window and what the loop remembers from frame to frame; the window is destroyed with it.
struct window::inside {
  GLFWwindow* glass{nullptr};
  bool input{false};   // something came from the person since the last frame
  bool exposed{false}; // the window must be shown again even if nothing changed
  bool leaving{false};
  std::uint64_t shown{0}; // hash of the picture on the glass
  bool anything_shown{false};

  inside() = default;
  inside(const inside&) = delete;
  inside& operator=(const inside&) = delete;
  ~inside();
};

} // namespace qb::glass
