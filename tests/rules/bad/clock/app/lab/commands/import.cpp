// A command that reads a clock past the seam.
// Bad on purpose: tests/rules/run must find it.
#include <chrono>

auto today() {
  return std::chrono::system_clock::now();
}
