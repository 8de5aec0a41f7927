// Each picture is one plain shape and at most one thing happening to it.
// Coordinates are units of a square of 100; every picture leaves a small margin.
#include "app/patient/ui/pictures.hpp"

#include <cmath>

namespace qb::inline ui {

namespace {

constexpr float full_turn = 6.2831853F;

// A tumbler, wider at the top, with drink up to `level` (0 to 1).
void tumbler(const sketch& s, float x, float y, float w, float h, float level) {
  const theme& c = s.colours();
  const float taper = w * 0.12F;
  const float top = y + h * (1 - level);
  const float in = taper * (1 - level);
  if (level > 0) {
    s.fill({{x + in + 3, top},
            {x + w - in - 3, top},
            {x + w - taper - 2.5F, y + h - 3},
            {x + taper + 2.5F, y + h - 3}},
           c.now);
  }
  s.stroke({{x, y}, {x + taper, y + h}, {x + w - taper, y + h}, {x + w, y}}, c.ink);
}

void sugar_glass(const sketch& s) {
  const theme& c = s.colours();
  tumbler(s, 40, 44, 44, 50, 0.6F);
  s.fill({{8, 18}, {34, 6}, {44, 27}, {18, 40}}, c.paper);
  s.outline({{8, 18}, {34, 6}, {44, 27}, {18, 40}}, c.ink);
  s.stroke({{34, 6}, {44, 27}}, c.ink, 1.6F);
  for (const point& p : {point{51, 29}, point{55, 36}, point{60, 33}, point{58, 43}, point{64, 47},
                         point{62, 55}, point{54, 50}}) {
    s.disc(p.x, p.y, 1.8F, c.ink);
  }
}

// The bottle leans over the glass; the syrup in it is level, and runs out in a thread.
void syrup_glass(const sketch& s) {
  const theme& c = s.colours();
  tumbler(s, 46, 52, 42, 43, 0.5F);
  s.fill({{13, 31}, {43, 31}, {42.6F, 37.8F}, {33.5F, 40.7F}}, c.now);
  s.fill({{42.5F, 31}, {49.4F, 31}, {54.6F, 33.4F}, {50.8F, 41.6F}, {42.6F, 37.8F}}, c.now);
  s.stroke({{53, 38}, {57, 43}, {58, 50}, {58, 76}}, c.now, 1.8F);
  s.stroke({{54.6F, 33.4F},
            {46.4F, 29.6F},
            {42.8F, 20.7F},
            {15.7F, 8},
            {6.3F, 28},
            {33.5F, 40.7F},
            {42.6F, 37.8F},
            {50.8F, 41.6F}},
           c.ink);
  s.stroke({{55.6F, 31}, {49.8F, 44}}, c.ink, 1.3F);
}

void head(const sketch& s, bool blowing) {
  const colour c = s.colours().ink;
  s.curve({{2, 13}, {9, 6}, {19, 7}, {26, 15}, {27, 26}, {29, 32}}, c);
  s.curve({{29, 32}, {33, 38}, {36, 42}, {35, 44}, {30, 45}}, c);
  if (blowing) {
    s.curve({{30, 45}, {34, 47}, {34, 51}, {30, 53}}, c);
  } else {
    s.curve({{30, 45}, {32, 48}, {28, 50}}, c);
    s.curve({{28, 51}, {32, 53}, {30, 56}}, c);
  }
  s.curve(
      {{30, blowing ? 53.0F : 56.0F}, {30, 60}, {28, 66}, {21, 69}, {15, 70}, {13, 78}, {14, 88}},
      c);
  s.disc(20, 27, 2.1F, c);
  s.curve({{16, 20}, {20, 18.5F}, {23, 20}}, c, 0.8F);
  if (blowing) s.curve({{19, 46}, {23, 50}, {20, 55}}, c, 0.8F);
}

void drink(const sketch& s) {
  const theme& c = s.colours();
  head(s, false);
  s.fill({{38, 54}, {75, 54}, {79, 58.5F}, {67, 71.5F}}, c.now);
  s.stroke({{33.5F, 51}, {67, 76}, {83, 59}, {53, 29}}, c.ink);
}

void calendar(const sketch& s) {
  const theme& c = s.colours();
  s.frame(12, 16, 76, 76, c.ink, 5);
  s.fill_box(12, 16, 76, 18, c.ink, 5);
  s.fill_box(12, 26, 76, 8, c.ink);
  for (const float x : {30.0F, 70.0F})
    s.stroke({{x, 8}, {x, 20}}, c.ink, 1.6F);
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 4; ++column) {
      const float x = 24 + 17.3F * static_cast<float>(column);
      const float y = 46 + 16 * static_cast<float>(row);
      const bool marked = row == 1 && column == 2;
      s.disc(x, y, marked ? 8.0F : 3.0F, marked ? c.now : c.quiet);
      if (marked) s.hand().tick(s.area(x - 4, y - 4, 8, 8), c.paper, s.line());
    }
  }
}

void clock(const sketch& s) {
  const theme& c = s.colours();
  s.ring(50, 50, 42, c.ink, 1.3F);
  for (int i = 0; i < 12; ++i) {
    const float a = static_cast<float>(i) / 12 * full_turn;
    const float from = i % 3 == 0 ? 33.0F : 36.0F;
    s.stroke({{50 + from * std::sin(a), 50 - from * std::cos(a)},
              {50 + 37 * std::sin(a), 50 - 37 * std::cos(a)}},
             c.quiet, i % 3 == 0 ? 1.0F : 0.7F);
  }
  s.stroke({{50, 50}, {50, 22}}, c.now, 1.6F);
  s.stroke({{50, 50}, {68, 60}}, c.ink, 1.6F);
  s.disc(50, 50, 3.5F, c.ink);
}

void food(const sketch& s, bool struck_out) {
  const theme& c = s.colours();
  s.ring(50, 52, 30, c.ink);
  s.ring(50, 52, 20, c.quiet, 0.7F);
  s.stroke({{10, 18}, {10, 88}}, c.ink, 1.3F);
  s.stroke({{5, 18}, {5, 36}, {10, 42}, {15, 36}, {15, 18}}, c.ink);
  s.stroke({{90, 54}, {90, 88}}, c.ink, 1.3F);
  s.outline({{90, 16}, {90, 54}, {83, 50}, {84, 26}}, c.ink);
  if (!struck_out) return;
  s.stroke({{18, 88}, {82, 16}}, c.paper, 4);
  s.stroke({{18, 88}, {82, 16}}, c.needs_you, 2);
}

void post(const sketch& s) {
  const theme& c = s.colours();
  s.frame(8, 26, 84, 56, c.ink, 3);
  s.stroke({{9, 28}, {50, 58}, {91, 28}}, c.ink);
  s.stroke({{30, 14}, {66, 14}}, c.now, 1.3F);
  s.stroke({{58, 7}, {67, 14}, {58, 21}}, c.now, 1.3F);
}

void phone(const sketch& s) {
  const theme& c = s.colours();
  s.frame(30, 8, 40, 84, c.ink, 7);
  s.stroke({{45, 16}, {55, 16}}, c.ink);
  for (int i = 0; i < 12; ++i) {
    const float x = 40 + 10 * static_cast<float>(i % 3);
    const float y = 34 + 12 * static_cast<float>(i / 3);
    s.disc(x, y, 2.8F, c.ink);
  }
  for (const float r : {10.0F, 18.0F})
    s.arc(70, 30, r, 0.13F, 0.37F, c.now, 1.3F);
}

void sound(const sketch& s) {
  const theme& c = s.colours();
  s.curve(
      {{27, 71}, {31, 62}, {33, 46}, {38, 32}, {50, 25}, {62, 32}, {67, 46}, {69, 62}, {73, 71}},
      c.ink, 1.2F);
  s.stroke({{22, 72}, {78, 72}}, c.ink, 1.6F);
  s.disc(50, 82, 6, c.ink);
  s.disc(50, 17, 4, c.ink);
  for (const float r : {32.0F, 42.0F}) {
    s.arc(50, 46, r, 0.17F, 0.31F, c.now, 1.2F);
    s.arc(50, 46, r, 0.69F, 0.83F, c.now, 1.2F);
  }
}

void rest(const sketch& s) {
  const theme& c = s.colours();
  s.stroke({{24, 10}, {30, 54}, {70, 54}}, c.ink, 1.6F);
  s.stroke({{30, 54}, {26, 94}}, c.ink, 1.6F);
  s.stroke({{70, 54}, {74, 94}}, c.ink, 1.6F);
  s.disc(42, 14, 8, c.now);
  s.stroke({{40, 27}, {44, 47}, {66, 48}, {68, 78}, {78, 78}}, c.now, 2.2F);
  s.stroke({{41, 31}, {52, 40}, {62, 38}}, c.now, 1.6F);
}

void pack(const sketch& s) {
  const theme& c = s.colours();
  for (const float x : {30.0F, 45.0F, 60.0F})
    s.tube(x, 24, 10, 50, 0.9F, true);
  s.fill_box(12, 54, 76, 38, c.paper);
  s.frame(12, 54, 76, 38, c.ink, 2);
  s.stroke({{12, 54}, {4, 42}}, c.ink);
  s.stroke({{88, 54}, {96, 42}}, c.ink);
  s.stroke({{50, 62}, {50, 82}}, c.now, 1.3F);
  s.stroke({{42, 75}, {50, 84}, {58, 75}}, c.now, 1.3F);
}

void arrow_down(const sketch& s, float x, float from, float to) {
  const colour c = s.colours().now;
  s.stroke({{x, from}, {x, to - 2}}, c, 1.3F);
  s.stroke({{x - 6, to - 8}, {x, to}, {x + 6, to - 8}}, c, 1.3F);
}

// A face seen from the side, blowing to the right into a bent straw that stands in the tube.
void straw_and_blow(const sketch& s) {
  const theme& c = s.colours();
  head(s, true);
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
  case picture_of::sugar_glass: sugar_glass(s); return;
  case picture_of::syrup_glass: syrup_glass(s); return;
  case picture_of::drink: drink(s); return;
  case picture_of::calendar: calendar(s); return;
  case picture_of::clock: clock(s); return;
  case picture_of::food: food(s, false); return;
  case picture_of::no_food: food(s, true); return;
  case picture_of::post: post(s); return;
  case picture_of::phone: phone(s); return;
  case picture_of::sound: sound(s); return;
  case picture_of::rest: rest(s); return;
  case picture_of::pack: pack(s); return;
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

} // namespace qb::inline ui
