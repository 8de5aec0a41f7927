// What stands on the printed preparation page, before any drawing: when what holds, what fits the
// test, lists to tick, medicines, trouble, whom to call.
// For the door of the refrigerator: it must be right and enough without this device.
#pragma once

#include "core/sheet/prepared_plan.hpp"
#include "core/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace qb::inline sheets {

// A headline with what stands under it.
struct page_list {
  std::string title;
  std::string note; // quiet, under the lines; may be empty
  std::vector<std::string> lines;
  bool boxes{false}; // each line has a box to tick
};

// One moment of the preparation.
struct page_moment {
  std::string when; // "Monday 5 April, 19:30"
  std::string what; // "Water only"
  std::string more; // until when, and the rule in the protocol's words
};

// The page from top to foot, in the order it is drawn.
struct preparation_text {
  bool rehearsal{false};
  bool called_off{false};
  std::string title;
  std::string start; // of tube 1, the largest on the page
  std::vector<sheet_fact> first;
  std::vector<page_moment> moments;
  std::vector<page_list> food; // one a window that names food
  page_list evening;
  page_list morning;
  page_list medicines;
  page_list trouble;
  std::vector<sheet_fact> whom;
  std::vector<std::string> foot;
};

// The page of that plan; `z` is the zone times are shown in, `made_at` when it is made.
[[nodiscard]] preparation_text preparation_of(const prepared_plan& p, const zone& z,
                                              instant made_at);

} // namespace qb::inline sheets
