// From the end to the beginning: the best way to set what follows is known before it is needed.
// Of ways that are equally good the one with the fuller first leaf is taken.
#include "app/patient/ui/panels.hpp"

#include <algorithm>
#include <limits>

namespace qb::inline ui {

namespace {

constexpr double another_panel = 1;
constexpr double lonely_actions = 1e2;
constexpr double lonely_headline = 1e3;
constexpr double too_high = 1e5;     // and
constexpr double a_pixel_more = 1e2; // for each that sticks out
constexpr float rounding = 0.5F;

struct best_way {
  double cost{std::numeric_limits<double>::infinity()};
  std::size_t next{0}; // the first block that is not on this leaf
};

double cost_of_height(float height, float room) {
  const float excess = height - room;
  return excess > rounding ? too_high + a_pixel_more * static_cast<double>(excess) : 0;
}

// The cheapest leaf that begins with block `from`, given the best ways for later beginnings.
best_way panel_from(const std::vector<block>& blocks, std::size_t from, panel_room room,
                    const std::vector<best_way>& later) {
  best_way best;
  float height = 0;
  bool only_headlines = true;
  for (std::size_t next = from + 1; next <= blocks.size(); ++next) {
    const block& added = blocks[next - 1];
    height += (next == from + 1 ? 0 : added.gap) + added.height;
    only_headlines = only_headlines && added.keep;
    const bool last = next == blocks.size();
    const bool lonely = last ? only_headlines && from > 0 : added.keep || blocks[next].tail;
    const double company = another_panel + (lonely ? lonely_headline : 0);
    const double on_others = company + cost_of_height(height, room.others) + later[next].cost;
    if (on_others <= best.cost) best = {on_others, next};
    if (last) { // past the end stands the leaf that ends with the actions
      const double on_last = company + cost_of_height(height, room.last);
      if (on_last <= best.cost) best = {on_last, next + 1};
    }
    if (height > room.others + rounding) break;
  }
  return best;
}

} // namespace

std::size_t leading_headlines(const std::vector<block>& blocks) {
  std::size_t n = 0;
  while (n < blocks.size() && blocks[n].keep)
    ++n;
  return n;
}

panel_plan plan_leaves(const std::vector<block>& blocks, panel_room room) {
  panel_plan plan;
  const std::size_t count = blocks.size();
  if (count == 0) return plan;
  std::vector<best_way> best(count + 1);
  best[count].cost = lonely_actions + another_panel;
  for (std::size_t from = count; from-- > 0;)
    best[from] = panel_from(blocks, from, room, best);
  plan.cost = best[0].cost;
  plan.overflow = plan.cost >= too_high;
  plan.panel_of.resize(count);
  int panel = 0;
  for (std::size_t from = 0; from < count; ++panel) {
    const std::size_t end = std::min(best[from].next, count);
    plan.actions_alone = best[from].next == count;
    plan.used = 0;
    for (std::size_t i = from; i < end; ++i) {
      plan.panel_of[i] = panel;
      plan.used += (i == from ? 0 : blocks[i].gap) + blocks[i].height;
    }
    from = end;
  }
  plan.panels = panel + (plan.actions_alone ? 1 : 0);
  return plan;
}

} // namespace qb::inline ui
