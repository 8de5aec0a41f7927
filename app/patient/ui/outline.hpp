// The outline: a line for every element drawn in a frame, with its key, role, words and place.
// Tests press through it, a voice can read it out, contrast and target sizes are checked from it;
// screens never have to do anything for it, the toolkit leaves the lines.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace qb::inline ui {

// One element. `key` is stable across languages and frames; `name` is what it is called on the
// screen, `value` what it holds now, `state` a word such as "on", "now", "missed", "editing".
// Rectangles are window pixels, origin top left.
struct element {
  std::string key;
  std::string role; // heading, text, note, button, link, choice, check, textbox, key, image,
                    // progress, figure, row, tube, banner
  std::string name;
  std::string value;
  std::string state;
  float x{};
  float y{};
  float w{};
  float h{};
  bool target{false}; // can be pressed
  bool cut{false};    // its words did not fit; always a fault
};

// All of one frame, in the order in which it was drawn.
struct outline {
  std::string screen;
  std::uint64_t frame{};
  bool settled{false}; // the picture no longer changes by itself
  float width{};       // the window, in pixels
  float height{};
  std::vector<element> elements;

  // The first element with this key, or null.
  [[nodiscard]] const element* find(const std::string& key) const;
};

// {"screen":"...","frame":N,"settled":true|false,"size":[w,h],"elements":[{"key","role","name",
// "value","state","x","y","w","h"},...]}, one element a line, whole pixels, ending with a newline.
[[nodiscard]] std::string to_json(const outline& seen);

// The same text with the frame's number left at 0: equal exactly when nothing a reader could see
// has changed.
[[nodiscard]] std::string fingerprint(outline seen);

} // namespace qb::inline ui
