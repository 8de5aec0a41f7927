// Rows to choose from, drawn like a printed form: a circle or a box, words, a hairline.
// The chosen row has a filled mark, bold words and a tint, so colour is never alone.
#include "app/patient/ui/choices.hpp"

#include <algorithm>

namespace qb::inline ui {

namespace {

constexpr float mark_room = 44;

struct row_words {
  lines title;
  lines detail;
  float height{};
};

row_words measure(const toolkit& k, const std::string& title, const std::string& detail,
                  float beside = mark_room) {
  const pen p = k.ink();
  const float w = k.column() - beside - 4;
  row_words r;
  // Measured in bold either way: choosing must not move anything.
  r.title = p.wrap(face::bold, title, w);
  if (!detail.empty()) r.detail = p.wrap(face::small, detail, w);
  r.height = std::max(56.0F, r.title.height() + r.detail.height() + 22);
  return r;
}

void draw_words(const toolkit& k, box b, const row_words& r, bool on, float left = mark_room) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const float text = r.title.height() + r.detail.height();
  const float y = b.y + (b.h - text) / 2;
  const float x = b.x + left;
  p.set_lines(on ? face::bold : face::body, {x, y, b.w, r.title.height()}, c.ink, r.title);
  p.set_lines(face::small, {x, y + r.title.height(), b.w, r.detail.height()}, c.quiet, r.detail);
}

bool sign_button(toolkit& k, const std::string& key, const std::string& name, box b, bool plus,
                 bool at_end) {
  const pen p = k.ink();
  const theme& c = k.colours();
  k.repeat_next();
  const touch t = k.press(key, "button", name, b, "", at_end ? "at-end" : "", hearing::always);
  if (t.held && !at_end) p.fill_box(b, c.wash, 5);
  const colour line = at_end ? c.hairline : c.ink;
  p.frame(b, line, c.stroke, 5);
  const point o = b.centre();
  p.path({{o.x - 10, o.y}, {o.x + 10, o.y}}, line, 3);
  if (plus) p.path({{o.x, o.y - 10}, {o.x, o.y + 10}}, line, 3);
  return t.pressed && !at_end;
}

} // namespace

std::optional<std::size_t> choice_list(toolkit& k, const std::string& key,
                                       const std::vector<choice>& choices,
                                       const std::string& chosen) {
  std::optional<std::size_t> pressed;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    const choice& one = choices[i];
    const bool on = one.key == chosen;
    const row_words r = measure(k, one.title, one.detail);
    const auto b = k.place(r.height, i == 0 ? 16.0F : 0.0F);
    if (!b) continue;
    const touch t =
        k.press(key + "-" + one.key, "choice", one.title, *b, one.detail, on ? "on" : "off");
    const pen p = k.ink();
    const theme& c = k.colours();
    if (on || t.held) p.fill_box({b->x - 8, b->y, b->w + 16, b->h}, c.wash);
    const point o{b->x + 15, b->centre().y};
    p.ring(o, 12, on ? c.now : c.quiet, on ? 3.0F : 2.0F);
    if (on) p.disc(o, 6.5F, c.now);
    draw_words(k, *b, r, on);
    p.line({b->x, b->bottom()}, {b->right(), b->bottom()}, c.hairline, 1);
    if (t.pressed) pressed = i;
  }
  return pressed;
}

std::optional<std::size_t> menu_list(toolkit& k, const std::string& key,
                                     const std::vector<choice>& choices) {
  constexpr float arrow = 18;
  std::optional<std::size_t> pressed;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    const choice& one = choices[i];
    const row_words r = measure(k, one.title, one.detail, arrow + 8);
    const auto b = k.place(r.height, i == 0 ? 16.0F : 0.0F);
    if (!b) continue;
    const touch t = k.press(key + "-" + one.key, "button", one.title, *b, one.detail);
    const pen p = k.ink();
    const theme& c = k.colours();
    if (t.held) p.fill_box({b->x - 8, b->y, b->w + 16, b->h}, c.wash);
    draw_words(k, *b, r, false, 0);
    const box mark{b->right() - arrow, b->centre().y - arrow / 2, arrow, arrow};
    p.chevron(mark, c.now, 3, true);
    p.line({b->x, b->bottom()}, {b->right(), b->bottom()}, c.hairline, 1);
    if (t.pressed) pressed = i;
  }
  return pressed;
}

bool check_row(toolkit& k, const std::string& key, const std::string& text, bool on,
               const std::string& detail) {
  const row_words r = measure(k, text, detail);
  const auto b = k.place(r.height, 0);
  if (!b) return false;
  const touch t = k.press(key, "check", text, *b, detail, on ? "on" : "off");
  const pen p = k.ink();
  const theme& c = k.colours();
  if (t.held) p.fill_box({b->x - 8, b->y, b->w + 16, b->h}, c.wash);
  const box square{b->x + 1, b->centre().y - 14, 28, 28};
  if (on) {
    p.fill_box(square, c.now, 4);
    p.tick(square.inset(5, 5), c.paper, 3.5F);
  } else {
    p.frame(square, c.quiet, 2, 4);
  }
  draw_words(k, *b, r, false);
  p.line({b->x, b->bottom()}, {b->right(), b->bottom()}, c.hairline, 1);
  return t.pressed;
}

int stepper(toolkit& k, const std::string& key, const std::string& label, const std::string& value,
            bool at_least, bool at_most) {
  constexpr float side = 56;
  const pen p = k.ink();
  const lines name = p.wrap(face::small, label, k.column());
  const lines set = p.wrap(face::label, value, k.column() - 2 * side - 24, true);
  const float row = std::max(side, set.height() + 12);
  const auto b = k.place(name.height() + 4 + row, 16);
  if (!b) return 0;
  const theme& c = k.colours();
  p.set_lines(face::small, *b, c.quiet, name);
  const float y = b->y + name.height() + 4;
  const box less{b->x, y + (row - side) / 2, side, side};
  const box more{b->right() - side, less.y, side, side};
  const box middle{less.right() + 8, y, more.x - less.right() - 16, row};
  k.note(key, "figure", label, middle).value = value;
  const box words{middle.x, y + (row - set.height()) / 2, middle.w, set.height()};
  p.set_lines(face::label, words, c.ink, set, align::centre);
  int pressed = 0;
  if (sign_button(k, key + "-less", label + " −", less, false, at_least)) pressed = -1;
  if (sign_button(k, key + "-more", label + " +", more, true, at_most)) pressed = 1;
  return pressed;
}

} // namespace qb::inline ui
