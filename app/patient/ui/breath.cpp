// A tall tube that fills while the patient blows, beside the seconds.
// The mark on the glass is the least time: past it, the breath has been long enough.
#include "app/patient/ui/breath.hpp"
#include "app/patient/ui/pictures.hpp"

#include <algorithm>

namespace qb::inline ui {

namespace {

void column_of_breath(const pen& p, const theme& c, box b, float done, float enough) {
  const float w = std::min(64.0F, b.h * 0.3F);
  const box glass{b.centre().x - w / 2, b.y + 10, w, b.h - 12};
  tube_look look;
  look.line = c.ink;
  look.width = 3;
  look.filling = std::clamp(done, 0.0F, 1.0F);
  look.filled_with = c.now;
  draw_tube(p, glass, look);
  const float y = glass.bottom() - glass.h * enough;
  p.path({{glass.x - 20, y}, {glass.x - 6, y}}, c.ink, 3);
  p.path({{glass.right() + 6, y}, {glass.right() + 20, y}}, c.ink, 3);
}

const char* word(breath_phase phase) {
  switch (phase) {
  case breath_phase::lead_in: return "lead-in";
  case breath_phase::hold: return "hold";
  case breath_phase::blow: return "blow";
  case breath_phase::close: return "close";
  }
  return "";
}

} // namespace

void breath(toolkit& k, const std::string& key, const breath_view& view) {
  const float high = k.stretch(280, 190);
  const pen p = k.ink();
  const lines words = p.wrap(face::headline, view.words, k.column(), true);
  const auto b = k.place(high + 12 + words.height(), 12);
  if (!b) return;
  const theme& c = k.colours();
  const box top{b->x, b->y, b->w, high};
  const bool alone = view.figure.empty();
  const bool held = view.phase == breath_phase::hold; // no picture: nothing is blown yet
  const float beside = held ? b->w : b->w * 0.42F;
  const float split = alone ? 0 : beside;
  const box drawing{b->x + split, b->y, b->w - split, high};
  if (view.phase == breath_phase::blow) {
    column_of_breath(p, c, drawing, view.done, view.enough);
  } else if (!held) {
    const bool closes = view.phase == breath_phase::close;
    draw_picture(sketch(p, drawing.inset(4, 4), c),
                 closes ? picture_of::close_lid : picture_of::straw_and_blow);
  }
  if (!alone) {
    const point o{b->x + split / 2, top.centre().y};
    p.figures(face::countdown, o, view.phase == breath_phase::blow ? c.now : c.ink, view.figure);
    if (view.phase == breath_phase::lead_in || held) {
      const float r = std::min(split / 2 - 4, held ? 90.0F : 60.0F);
      p.ring(o, r, c.hairline, 5);
      p.arc(o, r, std::clamp(view.done, 0.0F, 1.0F), 1, c.now, 5);
    }
  }
  const box below{b->x, top.bottom() + 12, b->w, words.height()};
  p.set_lines(face::headline, below, c.ink, words, align::centre);
  element& line = k.note(key, "progress", view.words, *b);
  line.value = view.figure;
  line.state = word(view.phase);
}

} // namespace qb::inline ui
