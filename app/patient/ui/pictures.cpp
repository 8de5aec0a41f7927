// The pictures of the tube and of writing; the others are in pictures_more.cpp.
// Coordinates are units of a square of 100; every picture leaves a small margin.
#include "app/patient/ui/pictures.hpp"
#include "app/patient/ui/pictures_more.hpp"

namespace qb {

namespace {

void arrow_down(const sketch& s, float x, float from, float to) {
  const colour c = s.colours().now;
  s.stroke({{x, from}, {x, to - 2}}, c, 1.3F);
  s.stroke({{x - 6, to - 8}, {x, to}, {x + 6, to - 8}}, c, 1.3F);
}

// A face seen from the side, blowing to the right into a bent straw that stands in the tube.
void straw_and_blow(const sketch& s) {
  const theme& c = s.colours();
  draw_head(s, true);
  s.stroke({{35, 49}, {60, 38}, {68, 39}, {69, 47}, {69, 70}}, c.ink, 2.2F);
  s.stroke({{35, 49}, {60, 38}, {68, 39}, {69, 47}, {69, 70}}, c.paper, 0.7F);
  s.tube(58, 48, 22, 48, 0, false);
  for (const float y : {78.0F, 86.0F}) {
    s.disc(65, y - 2, 1.6F, c.now);
    s.disc(72, y + 2, 1.6F, c.now);
  }
  s.disc(69, 75, 1.6F, c.now);
  s.stroke({{42, 33}, {55, 29}}, c.now, 1.3F);
  s.stroke({{49, 25}, {56, 29}, {51, 35}}, c.now, 1.3F);
}

void close_lid(const sketch& s) {
  const theme& c = s.colours();
  s.tube(38, 48, 24, 48, 0.9F, false);
  s.fill_box(33, 26, 34, 13, c.ink, 3);
  s.fill_box(39, 38, 22, 4, c.ink);
  arrow_down(s, 24, 20, 42);
  arrow_down(s, 76, 20, 42);
}

void pen_at(const sketch& s, float x, float y) {
  const theme& c = s.colours();
  s.fill({{x, y}, {x + 3, y - 11}, {x + 11, y - 3}}, c.now);
  s.fill({{x + 3, y - 11}, {x + 25, y - 33}, {x + 33, y - 25}, {x + 11, y - 3}}, c.now);
  s.stroke({{x + 21, y - 29}, {x + 29, y - 21}}, c.paper, 0.8F);
}

void write_label(const sketch& s) {
  const theme& c = s.colours();
  s.frame(8, 34, 76, 54, c.ink, 5);
  s.stroke({{18, 50}, {50, 50}}, c.ink);
  s.stroke({{18, 64}, {74, 64}}, c.quiet, 0.7F);
  s.stroke({{18, 78}, {74, 78}}, c.quiet, 0.7F);
  s.stroke({{18, 62}, {23, 57}, {26, 63}, {31, 57}, {35, 63}, {40, 58}, {44, 62}}, c.now);
  pen_at(s, 46, 62);
}

void label_on_tube(const sketch& s) {
  const theme& c = s.colours();
  s.tube(58, 18, 26, 78, 0.92F, true);
  s.fill_box(54, 40, 34, 30, c.paper, 3);
  s.frame(54, 40, 34, 30, c.ink, 3);
  s.stroke({{60, 49}, {76, 49}}, c.ink);
  s.stroke({{60, 55.5F}, {82, 55.5F}}, c.quiet, 0.7F);
  s.stroke({{60, 62}, {82, 62}}, c.quiet, 0.7F);
  s.stroke({{14, 55}, {42, 55}}, c.now, 1.3F);
  s.stroke({{34, 47}, {43, 55}, {34, 63}}, c.now, 1.3F);
}

void gate(const sketch& s) {
  const theme& c = s.colours();
  s.frame(20, 8, 60, 84, c.ink, 5);
  for (const float y : {26.0F, 46.0F, 66.0F}) {
    s.hand().tick(s.area(29, y, 11, 11), c.now, s.line() * 1.2F);
    s.stroke({{48, y + 6}, {70, y + 6}}, c.ink);
  }
}

} // namespace

void draw_picture(const sketch& s, picture_of what) {
  switch (what) {
  case picture_of::straw_and_blow: straw_and_blow(s); return;
  case picture_of::close_lid: close_lid(s); return;
  case picture_of::write_label: write_label(s); return;
  case picture_of::label_on_tube: label_on_tube(s); return;
  case picture_of::gate: gate(s); return;
  case picture_of::sugar_glass: draw_sugar_glass(s); return;
  case picture_of::syrup_glass: draw_syrup_glass(s); return;
  case picture_of::drink: draw_drink(s); return;
  case picture_of::calendar: draw_calendar(s); return;
  case picture_of::clock: draw_clock(s); return;
  case picture_of::food: draw_food(s, false); return;
  case picture_of::no_food: draw_food(s, true); return;
  case picture_of::post: draw_post(s); return;
  case picture_of::phone: draw_phone(s); return;
  case picture_of::sound: draw_sound(s); return;
  case picture_of::rest: draw_rest(s); return;
  case picture_of::pack: draw_pack(s); return;
  }
}

void picture(toolkit& k, const std::string& key, picture_of what, const std::string& name,
             bool may_go) {
  if (may_go && k.stretch(0, 1) > 0.9F) return;
  const float high = k.stretch(168, 96);
  const auto b = k.place(high, 16);
  if (!b) return;
  draw_picture(sketch(k.ink(), *b, k.colours()), what);
  const float side = std::min(b->w, high);
  k.note(key, "image", name, {b->centre().x - side / 2, b->y, side, high});
}

} // namespace qb
