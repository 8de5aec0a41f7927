// Variables that outlive a call.
// Bad on purpose: tests/rules/run must find it.
#include <string>

namespace qb::inline sessions {

constexpr int fine = 1;
const std::string also_fine = "a constant";
int sessions = 0;

namespace {
std::string last_name;
}

static int helper(int n) {
  return n + fine;
}

int next() {
  static int calls = 0;
  static constexpr int step = 1;
  calls += step;
  return helper(calls);
}

} // namespace qb::inline sessions
