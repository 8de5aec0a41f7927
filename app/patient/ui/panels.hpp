// Where a page breaks into leaves: blocks of known heights in, a leaf for each out.
// Pure, so that every mix of heights can be tried without drawing anything.
#pragma once

#include <cstddef>
#include <vector>

namespace qb::inline ui {

// One thing that is never cut: a group of lines, a row, a card. Logical pixels.
struct block {
  float gap{};      // above it, unless it is the first of its leaf
  float height{};   //
  bool keep{false}; // a headline: it must not be the last thing on a leaf
  bool tail{false}; // a rule under something: it must not be the first
};

// What a leaf holds: the last one has the actions under it, the others have only the page turn.
struct panel_room {
  float others{};
  float last{};
};

// Which leaf each block stands on, and how well that came out.
struct panel_plan {
  std::vector<int> panel_of; // for each block
  int panels{1};
  float used{0};             // height of the last leaf's blocks, with their gaps
  bool overflow{false};      // a block is higher than its whole leaf
  bool actions_alone{false}; // the actions have the last leaf for themselves: nothing would fit
                             // above them
  double cost{0};            // the less the better; grows with the number of leaves
};

// Fills each leaf before it begins the next, on as few leaves as there can be, so that no leaf is
// empty or ends with a headline and the last one holds something. Where that cannot be, it gives
// up, in this order: something on the last leaf, the headline's company, the room.
[[nodiscard]] panel_plan plan_leaves(const std::vector<block>& blocks, panel_room room);

// How many blocks at the top are headlines.
[[nodiscard]] std::size_t leading_headlines(const std::vector<block>& blocks);

} // namespace qb::inline ui
