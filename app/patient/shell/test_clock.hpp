// The clock a window runs on: the machine's, or in practice a faster one that can jump.
// One look a frame; everything that frame shows or records carries that same reading.
#pragma once

#include "app/machine/machine.hpp"
#include "core/clock/clock_reading.hpp"
#include "core/time/zone.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace qb::inline shells {

// One look at the clocks, as a frame has it: everything the frame shows, decides and records
// carries this.
struct frame_time {
  clock_reading now; // what the test goes by: the machine's clocks, or practice's
  duration evenly{}; // runs on evenly whatever practice does: for ears, eyes and hands
};

// Where a practice clock stood, so that it goes on after a restart: written as "sim real rate".
struct practice_base {
  std::int64_t sim_ms{0};  // practice time at the base, since 1970 UTC
  std::int64_t real_ms{0}; // the machine's wall clock at the base
  int rate{1};             // practice seconds a real second
};
// The key it is kept under, beside the drafts.
inline constexpr const char* practice_base_row = "clock.base";
// As it is kept among the drafts, and read again; nothing where the text is no base.
[[nodiscard]] std::string practice_base_text(const practice_base& b);
[[nodiscard]] std::optional<practice_base> parse_practice_base(const std::string& text);

// The machine's until practice begins, and again once practice is left.
class test_clock {
public:
  // The machine's clocks.
  test_clock() = default;
  // A practice clock from that base on.
  explicit test_clock(const practice_base& base) : base_(base) {}

  [[nodiscard]] frame_time look(machine& m);
  // The zone the device shows, as of the last look; UTC where its file cannot be read.
  [[nodiscard]] const zone& place() const { return zone_; }
  [[nodiscard]] bool practice() const { return base_.has_value(); }
  [[nodiscard]] int rate() const { return base_ ? base_->rate : 1; }

  // Practice only. Each makes a new base, to be kept. The pace changes at the last look.
  void set_rate(int rate);
  void jump(duration by);
  // Practice begins at the last look.
  void begin_practice();
  void leave_practice() { base_.reset(); }
  [[nodiscard]] practice_base base() const { return *base_; }

private:
  [[nodiscard]] std::int64_t practice_ms(std::int64_t real_ms) const;

  std::optional<practice_base> base_;
  std::int64_t real_ms_{0}; // the machine's wall clock at the last look
  zone zone_{zone::fixed("UTC", std::chrono::seconds{0})};
};

} // namespace qb::inline shells
