// Core with a thread of its own.
// Bad on purpose: tests/rules/run must find it.
#include <thread>

namespace qb::inline cases {

void both() {
  std::thread other([] {});
  other.join();
}

} // namespace qb::inline cases
