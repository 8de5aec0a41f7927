// Which presses are a hand that trembles, or one that was not done with the page before, and no
// second wish. Pure: the time and what was shown in, whether presses are heard out.
#pragma once

#include <cstdint>
#include <string>

namespace qb::inline shells {

// Told of each frame, asked before the next.
class trembling {
public:
  // Whether a press at that moment is not heard. Milliseconds of a clock that only goes forward.
  [[nodiscard]] bool deaf(std::int64_t now_ms) const { return now_ms < deaf_until_ms_; }

  // After a frame: the screen it showed, and whether something that leads on was pressed in it.
  void saw(const std::string& screen, bool pressed, std::int64_t now_ms);

private:
  std::int64_t deaf_until_ms_{INT64_MIN};
  std::string screen_;
};

} // namespace qb::inline shells
