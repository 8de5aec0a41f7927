// A line to write on, and the keyboard drawn under it while it is written on.
// A kiosk has no other keyboard; where there is a real one, it types into the same line.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// What is typed, and so which keys the keyboard shows first.
enum class text_kind {
  name,   // words; the first letter of each becomes a capital
  plain,  // words; the first letter of all becomes a capital
  code,   // capitals and digits on one leaf
  number, // digits and the marks that stand in dates
};

// What the line shows beside its value.
struct field_view {
  std::string label;
  std::string hint;      // quiet words under the label: an example, or why it is asked
  std::string complaint; // what is wrong with the value, in plain words; empty for nothing
  text_kind kind{text_kind::plain};
  std::size_t longest{60};  // characters
  bool takes_typing{false}; // typing on a real keyboard opens the line, as a hand scanner does
};

// What happened to the value in this frame; `done` also closes the keyboard.
enum class field_event { none, changed, done };

// Pressing the line opens the keyboard, which takes the page until "done" (or Enter, Escape).
// `value` is the caller's and is edited in place. Keys while typing: "key-a", "key-1", ...,
// "key-space", "key-erase", "key-shift", "key-accents", "key-digits", "key-letters", "key-done".
field_event text_field(toolkit& k, const std::string& key, const field_view& view,
                       std::string& value);

} // namespace qb::inline ui
