// The one window, and the loop that sleeps until something changes.
// GLFW, OpenGL and Dear ImGui's two backends are known in this folder and in no other.
#pragma once

#include "core/base/result.hpp"

#include <cstdint>
#include <functional>
#include <memory>
#include <string>

namespace qb::glass {

// How the window is opened.
struct window_options {
  std::string title;
  int width{390}; // pixels; limited to the monitor
  int height{844};
  bool fullscreen{false}; // the whole monitor, for a kiosk; the size is then the monitor's
};

// The size of what is drawn into, in pixels: not the window's where the screen is scaled.
struct frame_size {
  float width{};
  float height{};
  bool operator==(const frame_size&) const = default;
};

// Which frame is being drawn, as the loop's calls are told.
struct frame_info {
  std::uint64_t number{}; // from 1
  frame_size size;        // pixels
  bool resized{false};    // since the last frame; also true in the first
};

// What the loop calls.
struct loop_calls {
  // Before a frame's NewFrame, when the size is new: the place to rebuild fonts (then call
  // window::fonts_changed()). May be empty.
  std::function<void(frame_size)> resized;
  // Draws one frame between NewFrame and Render; answers the seconds until it is next wanted, 0
  // or more (0: at once; infinity: only after input). Suspend counts; nothing is drawn earlier.
  std::function<double(const frame_info&)> frame;
  // After Render: true if the frame lacked something that has been made meanwhile (then call
  // window::fonts_changed()): it is drawn again before anything of it is shown. May be empty.
  std::function<bool(frame_size)> draw_again;
  // After Render: the picture is steady, or will be drawn again at once. May be empty.
  std::function<void(const frame_info&, bool settled)> drawn;
};

// How busy the loop was.
struct loop_report {
  std::uint64_t wakes{};    // times it woke or was woken
  std::uint64_t frames{};   // frames drawn
  std::uint64_t pictures{}; // frames that differed and were shown
};

// Owns the window, its OpenGL context and Dear ImGui's; there is one at a time in a process.
class window {
public:
  // Refuses as `machine` when there is no display or no OpenGL. Makes Dear ImGui's context.
  [[nodiscard]] static result<window> open(const window_options& options);

  window(window&&) noexcept;
  window& operator=(window&&) noexcept;
  window(const window&) = delete;
  window& operator=(const window&) = delete;
  ~window();

  // Runs until the window is closed, leave() is called, or SIGTERM or SIGINT comes.
  loop_report run(const loop_calls& calls);
  // Ends run() after the present frame.
  void leave();

  [[nodiscard]] frame_size size() const;
  // The font atlas has been rebuilt; its texture is made anew.
  void fonts_changed();
  // The picture last drawn, as a PNG, from the back buffer. Only from inside `drawn`.
  [[nodiscard]] result<void> screenshot(const std::string& path);

private:
  struct inside;
  explicit window(std::unique_ptr<inside> opened);
  std::unique_ptr<inside> inside_;
};

} // namespace qb::glass
