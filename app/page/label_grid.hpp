// Sheets of labels as data: where the labels of one A4 page stand.
// Source: common label sheet geometry, counted in Debian glabels-data (3 columns of 70 mm, 8 rows
// of 37 mm is the most common grid there).
#pragma once

#include <cstddef>

namespace qb::page {

// All lengths in millimetres, from the page's top left corner.
struct label_grid {
  std::size_t columns{0};
  std::size_t rows{0};
  double width{0};
  double height{0};
  double left{0}; // of the first label
  double top{0};
  double pitch_x{0};
  double pitch_y{0};

  [[nodiscard]] constexpr std::size_t on_a_page() const { return columns * rows; }
};

inline constexpr label_grid a4_3_by_8{3, 8, 70, 37, 0, 0.5, 70, 37};

} // namespace qb::page
