// Draws the ring: a scale of fifteen ticks, a thin track, the thick arc of what is left.
// The arc empties clockwise, its end running towards twelve o'clock, as on an egg timer.
#include "app/patient/ui/quarter.hpp"

#include <algorithm>
#include <cmath>

namespace qb::inline ui {

namespace {

constexpr float full_turn = 6.2831853F;

point on_ring(point o, float radius, float turns) {
  return {o.x + radius * std::sin(turns * full_turn), o.y - radius * std::cos(turns * full_turn)};
}

void scale_of_minutes(const pen& p, const theme& c, point o, float outer) {
  constexpr int minutes = 15;
  for (int i = 0; i < minutes; ++i) {
    const float at = static_cast<float>(i) / minutes;
    const bool fifth = i % 5 == 0;
    p.line(on_ring(o, outer - (fifth ? 10.0F : 6.0F), at), on_ring(o, outer, at), c.quiet,
           fifth ? 2.5F : 1.6F);
  }
}

void words_inside(const pen& p, const theme& c, box b, point o, float inner,
                  const quarter_view& view, bool& cut) {
  const face type = quarter_face(p, view.figure, inner * 1.92F);
  const colour main = view.needs_you ? c.needs_you : c.ink;
  p.figures(type, o, main, view.figure);
  const float half = p.faces().of(type).em * 0.42F;
  const float chord = 2 * std::sqrt(std::max(0.0F, inner * inner - (half + 24) * (half + 24)));
  const lines above = p.wrap(face::small_bold, view.above, chord - 8, true);
  const lines below = p.wrap(face::small_bold, view.below, chord - 8, true);
  cut = above.text.size() > 2 || below.text.size() > 2;
  p.set_lines(face::small_bold, {b.x, o.y - half - 10 - above.height(), b.w, above.height()},
              c.quiet, above, align::centre);
  p.set_lines(face::small_bold, {b.x, o.y + half + 10, b.w, below.height()}, main, below,
              align::centre);
}

} // namespace

face quarter_face(const pen& p, const std::string& figure, float room) {
  const std::string widest = figure.size() > 5 ? figure : "00:00";
  for (const face f : {face::countdown, face::countdown_close}) {
    if (p.figures_width(f, widest) <= room) return f;
  }
  return face::figure;
}

void quarter(toolkit& k, const std::string& key, const quarter_view& view) {
  const float most = std::min(k.column(), 300.0F);
  const float size = std::min(most, k.stretch(most, 236));
  const auto b = k.place(size, 16);
  if (!b) return;
  const pen p = k.ink();
  const theme& c = k.colours();
  const point o = b->centre();
  const float outer = size / 2 - 1;
  constexpr float thick = 15;
  const float middle = outer - 14 - thick / 2;
  scale_of_minutes(p, c, o, outer);
  p.ring(o, middle, c.hairline, thick);
  const colour band = view.needs_you ? c.needs_you : c.now;
  const float left = view.needs_you ? 1.0F : std::clamp(view.left, 0.0F, 1.0F);
  p.arc(o, middle, 0, left, band, thick);
  bool cut = false;
  words_inside(p, c, *b, o, middle - thick / 2, view, cut);
  element& line =
      k.note(key, "progress", view.below.empty() ? view.above : view.above + ", " + view.below, *b);
  line.value = view.figure;
  line.state = view.needs_you ? "needs-you" : "counting";
  line.cut = cut;
}

} // namespace qb::inline ui
