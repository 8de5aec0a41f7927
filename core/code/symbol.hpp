// A code as it is drawn: a square of dark and light modules, without its quiet zone.
// Plain data, so that paper and window draw the same thing and neither knows how it was made.
#pragma once

#include <cstddef>
#include <vector>

namespace qb::code {

// One symbol; `at` counts columns and rows from 0.
struct symbol {
  std::size_t side{0};    // modules in a row
  std::vector<bool> dark; // row after row, from the top left

  [[nodiscard]] bool at(std::size_t x, std::size_t y) const { return dark[y * side + x]; }
};

// Light modules that must stand around a QR code for readers to find it (ISO/IEC 18004).
inline constexpr std::size_t quiet_modules = 4;

// Dark modules that stand beside each other in one row: drawn as one piece, so that no seam shows.
struct dark_run {
  std::size_t x{0};
  std::size_t y{0};
  std::size_t length{0};
};
[[nodiscard]] std::vector<dark_run> dark_runs(const symbol& s);

} // namespace qb::code
