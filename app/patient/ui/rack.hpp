// The rack: the tubes of the test in a row, each drawn as a glass tube with its number.
// Empty, filled, late, missed and next differ by form and mark, so that no state hangs on colour.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// The rack as an element of the page, larger than in the strip. 1 to 24 tubes; more than 12 stand
// in two rows. Keys in the outline: `key` for the whole, "tube-1"... for each, with its state.
void rack(toolkit& k, const std::string& key, const std::string& name,
          const std::vector<tube_mark>& tubes);

// Height that `tubes` tubes of that glass height take, numbers and markers included.
[[nodiscard]] float rack_height(std::size_t tubes, float glass);
void draw_rack(toolkit& k, box b, const std::vector<tube_mark>& tubes, float glass);

} // namespace qb::inline ui
