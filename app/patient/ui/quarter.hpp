// The quarter: the fifteen minutes as a thick arc that empties, with the time left inside it.
// The one figure a tired person must be able to read from across the room.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// What one frame of it shows.
struct quarter_view {
  float left{0};         // what is left of the span, 1 (just begun) to 0 (due)
  std::string figure;    // "12:04"; up to five characters keep the full size
  std::string above;     // what is counted to: "until tube 3"
  std::string below;     // "Tuesday 08:15"
  bool needs_you{false}; // due or late: the ring is closed in the other colour
};

// Takes 300 pixels of height with room to spare, 236 without.
void quarter(toolkit& k, const std::string& key, const quarter_view& view);

// The size of the figure in a ring with that much room: one from 15:00 to 0:00, because the widest
// figure of that span decides and not the present one.
[[nodiscard]] face quarter_face(const pen& p, const std::string& figure, float room);

} // namespace qb::inline ui
