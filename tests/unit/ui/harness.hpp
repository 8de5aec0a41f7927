// The toolkit without a window: a context, fonts in memory, a made-up finger and keyboard.
// Screens are tested with it as well: give it a screen's drawing, press keys, look at the outline.
#pragma once

#include "app/patient/theme/glyph_supply.hpp"
#include "app/patient/ui/elements.hpp"

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

struct ImGuiContext;

namespace qb::test {

// English words for the toolkit itself.
[[nodiscard]] toolkit_words some_words();

class harness {
public:
  // A window of that many pixels. The scale is the one the program would choose, unless given.
  explicit harness(float width = 390, float height = 844, float scale = 0, look kind = look::light,
                   toolkit_words words = some_words());
  harness(const harness&) = delete;
  harness& operator=(const harness&) = delete;
  ~harness();

  // What is drawn in each frame, between begin_frame and end_frame: usually one page() or one
  // screen's draw().
  std::function<void(toolkit&)> draw;
  // In its place, for what begins and ends the frame by itself: the shell.
  std::function<void(toolkit&, float width, float height)> draw_frame;

  // Draws so many frames.
  void frames(int count = 1);
  // Presses what has this key in the outline: point, press, release, each a frame, and one more so
  // that what it changed is drawn. Turns pages forward if it is not on this one. Answers false,
  // having done nothing, when it is nowhere.
  bool press(const std::string& key);
  // Presses whatever lies at that point of the window, in pixels.
  void press_at(float x, float y);
  // Types on a real keyboard, in one frame; then one more.
  void type(const std::string& text);
  // Presses a key of a real keyboard for a frame (an ImGuiKey: ImGuiKey_Enter, ...).
  void hit(int imgui_key);

  [[nodiscard]] const outline& seen() const { return toolkit_->seen(); }
  [[nodiscard]] const element* find(const std::string& key) const { return seen().find(key); }
  // The element's value or state, or "(none)".
  [[nodiscard]] std::string value(const std::string& key) const;
  [[nodiscard]] std::string state(const std::string& key) const;
  // The hash of the last picture.
  [[nodiscard]] std::uint64_t picture() const { return picture_; }
  [[nodiscard]] toolkit& the_toolkit() { return *toolkit_; }
  [[nodiscard]] const fonts& faces() const { return fonts_; }

  // What is wrong with the page as it stands, in sentences; empty when nothing is. Looks for
  // targets under 44 pixels, anything outside the window, targets that overlap, words cut, and
  // two elements with one key.
  [[nodiscard]] std::vector<std::string> faults() const;

private:
  void frame();
  void draw_once();
  void rasterise(float scale);

  ImGuiContext* context_;
  font_bytes bytes_;
  glyph_supply supply_;
  fonts fonts_;
  std::unique_ptr<toolkit> toolkit_;
  std::uint64_t picture_{0};
};

} // namespace qb::test
