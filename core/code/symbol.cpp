// Rows of modules as runs.
#include "core/code/symbol.hpp"

namespace qb::code {

std::vector<dark_run> dark_runs(const symbol& s) {
  std::vector<dark_run> out;
  for (std::size_t y = 0; y < s.side; ++y) {
    for (std::size_t x = 0; x < s.side; ++x) {
      if (!s.at(x, y)) continue;
      const std::size_t from = x;
      while (x < s.side && s.at(x, y))
        ++x;
      out.push_back({from, y, x - from});
    }
  }
  return out;
}

} // namespace qb::code
