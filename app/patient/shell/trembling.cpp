// A press deafens for a moment; a page that comes by itself, for as long as it takes to see it.
#include "app/patient/shell/trembling.hpp"

#include <algorithm>

namespace qb::inline shells {

namespace {

// A second press within this time is a hand that trembled.
constexpr std::int64_t trembling_ms = 400;
// Writing ends when it ends: whoever presses the drive's row again meets another page under it.
constexpr std::int64_t surprised_ms = 2000;

bool comes_by_itself(const std::string& screen) {
  return screen == "hand-over-written";
}

} // namespace

void trembling::saw(const std::string& screen, bool pressed, std::int64_t now_ms) {
  if (pressed) deaf_until_ms_ = std::max(deaf_until_ms_, now_ms + trembling_ms);
  if (screen != screen_ && comes_by_itself(screen))
    deaf_until_ms_ = std::max(deaf_until_ms_, now_ms + surprised_ms);
  screen_ = screen;
}

} // namespace qb::inline shells
