// The pictures of drinking, eating, waiting, posting.
// Split from pictures.cpp only for length; draw_picture() is the door to all of them.
#pragma once

#include "app/patient/ui/sketch.hpp"

namespace qb {

// A head from the side, looking to the right; the mouth is at 33, 50.
void draw_head(const sketch& s, bool blowing);
void draw_sugar_glass(const sketch& s);
void draw_syrup_glass(const sketch& s);
void draw_drink(const sketch& s);
void draw_calendar(const sketch& s);
void draw_clock(const sketch& s);
void draw_food(const sketch& s, bool struck_out);
void draw_post(const sketch& s);
void draw_phone(const sketch& s);
void draw_sound(const sketch& s);
void draw_rest(const sketch& s);
void draw_pack(const sketch& s);

} // namespace qb
