// Core that talks by itself.
// Bad on purpose: tests/rules/run must find it.
#include <cstdio>
#include <iostream>

namespace qb::inline findings {

void tell() {
  std::cout << "late";
  std::printf("late");
}

} // namespace qb::inline findings
