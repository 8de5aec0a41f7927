// The guided breath: get ready, hold it, blow, close the lid, each a picture with one figure.
// Moves only with the numbers it is given; with reduced motion the caller passes whole steps.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// Getting ready, holding the breath, blowing, putting the lid on.
enum class breath_phase { lead_in, hold, blow, close };

// What one frame of it shows.
struct breath_view {
  breath_phase phase{breath_phase::lead_in};
  std::string figure; // seconds to go, "3"; may be empty in `close`
  std::string words;  // "Blow gently", large under the figure
  float done{0};      // of the phase, 0 to 1; in `blow` the column's height
  float enough{0.6F}; // where in `blow` the least time lies (3 of 5 s); a mark on the column
};

// Takes 280 pixels of height with room to spare, 190 without, and its words under that.
void breath(toolkit& k, const std::string& key, const breath_view& view);

} // namespace qb::inline ui
