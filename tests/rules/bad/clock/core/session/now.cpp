// Core that reads clocks.
// Bad on purpose: tests/rules/run must find it.
#include <chrono>

namespace qb::inline sessions {

auto wall() {
  return std::chrono::system_clock::now();
}

auto steady() {
  return std::chrono::steady_clock::now();
}

auto old_way() {
  return time(nullptr);
}

// These three are no clock: a comment with time(nullptr), a name, a literal.
auto civil_time(int clock) {
  return clock;
}

auto named() {
  return "system_clock::now";
}

} // namespace qb::inline sessions
