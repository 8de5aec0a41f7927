// One glass tube, as the rack and the pictures draw it.
// A single hand for every tube, so that the patient knows it again at any size.
#pragma once

#include "app/patient/ui/pen.hpp"

namespace qb::inline ui {

// How one tube is drawn.
struct tube_look {
  colour line;
  colour filled_with;
  float width{2};
  float filling{0}; // 0 to 1, from the foot up
  bool lid{false};
  bool broken{false}; // dashed glass
};

// The tube upright in `glass`: open at the top (or under a lid), round at the foot.
void draw_tube(const pen& p, box glass, const tube_look& look);

// What the rack shows of a tube, in the patient's words and not the session's: `next` is the one to
// blow now, `late` is filled after its time.
enum class tube_mark { unused, empty, next, filled, late, missed };

} // namespace qb::inline ui
