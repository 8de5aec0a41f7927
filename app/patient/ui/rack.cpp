// Draws tubes: glass with a rim and a round foot; a lid and a filling once closed.
// next: heavy glass under a pointer. late: filled, with a small clock. missed: broken glass,
// crossed.
#include "app/patient/ui/rack.hpp"
#include "app/patient/ui/tube.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace qb::inline ui {

namespace {

constexpr float pointer = 12; // room above for the marker of the next tube
constexpr float number = 22;  // room below for the number
constexpr std::size_t row_length = 12;

const char* word(tube_mark m) {
  switch (m) {
  case tube_mark::unused: return "unused";
  case tube_mark::empty: return "empty";
  case tube_mark::next: return "next";
  case tube_mark::filled: return "filled";
  case tube_mark::late: return "late";
  case tube_mark::missed: return "missed";
  }
  return "";
}

void mark_inside(const toolkit& k, box glass, tube_mark m) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const float s = std::min(glass.w, 22.0F);
  const point o{glass.centre().x, glass.y + glass.h * 0.56F};
  const box square{o.x - s * 0.3F, o.y - s * 0.3F, s * 0.6F, s * 0.6F};
  if (m == tube_mark::filled) p.tick(square, c.paper, 2);
  if (m == tube_mark::late) {
    p.disc(o, s * 0.36F, c.paper);
    p.path({{o.x, o.y - s * 0.24F}, o, {o.x + s * 0.18F, o.y + s * 0.06F}}, c.ink, 1.6F);
  }
  if (m == tube_mark::missed) {
    const box across{glass.x - 3, glass.y + glass.h * 0.2F, glass.w + 6, glass.w + 6};
    p.cross(across, c.needs_you, 2.5F);
  }
}

void one_tube(toolkit& k, box cell, float glass_height, tube_mark m, int n) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const float w = std::clamp(cell.w * 0.6F, 12.0F, glass_height * 0.42F);
  const box glass{cell.centre().x - w / 2, cell.y + pointer, w, glass_height};
  const bool closed = m == tube_mark::filled || m == tube_mark::late;
  tube_look look;
  look.line = m == tube_mark::next ? c.now : m == tube_mark::unused ? c.hairline : c.ink;
  if (m == tube_mark::empty || m == tube_mark::missed) look.line = c.quiet;
  look.width = m == tube_mark::next ? 3.0F : 1.8F;
  look.filling = closed ? 1.0F : 0.0F;
  look.filled_with = c.ink;
  look.lid = closed;
  look.broken = m == tube_mark::missed || m == tube_mark::unused;
  draw_tube(p, glass, look);
  mark_inside(k, glass, m);
  if (m == tube_mark::next) {
    const float x = cell.centre().x;
    p.fill({{x - 7, cell.y}, {x + 7, cell.y}, {x, cell.y + 8}}, c.now);
  }
  const std::string words = fmt::format("{}", n);
  const box below{cell.x, glass.bottom() + 2, cell.w, number - 2};
  const bool loud = m == tube_mark::next;
  p.text_in(loud ? face::small_bold : face::small, below, loud ? c.now : c.ink, words);
  if (loud)
    p.line({below.x + 4, below.bottom() + 1}, {below.right() - 4, below.bottom() + 1}, c.now, 3);
  element& line = k.note("tube-" + words, "tube", words, cell);
  line.state = word(m);
  line.cut = p.width(face::small_bold, words) > cell.w;
}

} // namespace

float rack_height(std::size_t tubes, float glass) {
  const float row = pointer + glass + number + 4;
  return tubes > row_length ? 2 * row + 4 : row;
}

void draw_rack(toolkit& k, box b, const std::vector<tube_mark>& tubes, float glass) {
  const std::size_t rows = tubes.size() > row_length ? 2 : 1;
  const std::size_t a_row = (tubes.size() + rows - 1) / rows;
  const float wide = std::min(b.w / static_cast<float>(a_row), 56.0F);
  const float high = pointer + glass + number + 4;
  const float left = b.x + (b.w - wide * static_cast<float>(a_row)) / 2;
  for (std::size_t i = 0; i < tubes.size(); ++i) {
    const auto column = static_cast<float>(i % a_row);
    const auto row = static_cast<float>(i / a_row);
    const box cell{left + column * wide, b.y + row * (high + 4), wide, high};
    one_tube(k, cell, glass, tubes[i], static_cast<int>(i) + 1);
  }
}

void rack(toolkit& k, const std::string& key, const std::string& name,
          const std::vector<tube_mark>& tubes) {
  const float glass = k.stretch(64, 40);
  const auto b = k.place(rack_height(tubes.size(), glass), 16);
  if (!b) return;
  k.note(key, "image", name, *b);
  draw_rack(k, *b, tubes, glass);
}

} // namespace qb::inline ui
