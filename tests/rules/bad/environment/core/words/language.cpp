// Core that looks at the environment.
// Bad on purpose: tests/rules/run must find it.
#include <cstdlib>

namespace qb::inline wording {

const char* language() {
  return std::getenv("LANG");
}

} // namespace qb::inline wording
