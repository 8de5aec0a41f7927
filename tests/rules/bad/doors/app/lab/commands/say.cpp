// Prints past the console.
#include <fmt/core.h>

namespace qb::lab {

void say(const std::string& name) {
  fmt::print("{}\n", name);
}

} // namespace qb::lab
