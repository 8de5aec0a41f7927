// Drawn pictures of each step, that work without reading.
// Ink for things, the colour of now for what the hand or the breath does.
#pragma once

#include "app/patient/ui/sketch.hpp"
#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// What the pictures show.
enum class picture_of {
  straw_and_blow, // a straw halfway into the tube, breath going in
  close_lid,      // a lid coming down on a tube
  write_label,    // a pen over a label
  label_on_tube,  // the label going onto the tube
  sugar_glass,    // powder into a glass, set aside
  syrup_glass,    // syrup from a bottle into a glass
  drink,          // a glass tipped
  calendar,       // a day marked
  clock,          // a dial
  food,           // a plate
  no_food,        // a plate struck out, a glass of water beside it
  post,           // an envelope
  phone,          // a telephone receiver
  gate,           // a list with ticks
  sound,          // a bell
  rest,           // a chair: stop, sit down
  pack,           // tubes going back in the box
};

// The picture on the page, centred; `name` is what a voice would say of it. Takes 168 pixels of
// height with room to spare, 96 without; with `may_go` it is left out where the page is full.
void picture(toolkit& k, const std::string& key, picture_of what, const std::string& name,
             bool may_go = false);

// The drawing alone, for other elements.
void draw_picture(const sketch& s, picture_of what);

} // namespace qb::inline ui
