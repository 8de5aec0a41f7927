// Buttons, drawn as printed slips: one filled, others outlined or only underlined.
// Long words take a second line and the button grows; nothing is ever cut.
#include "app/patient/ui/buttons.hpp"

#include <algorithm>

namespace qb::inline ui {

namespace {

constexpr float corner = 5;

struct words_of {
  lines set;
  float height{};
};

constexpr float side_room = 32; // left and right of a button's words, together

words_of measure(const toolkit& k, face f, const std::string& text, float width, float least,
                 float room = side_room) {
  words_of w;
  w.set = k.ink().wrap(f, text, width - room, true);
  w.height = std::max(least, w.set.height() + 24);
  return w;
}

void words_centred(const toolkit& k, face f, box b, colour c, const lines& set) {
  k.ink().set_lines(f, {b.x, b.y - 1 + (b.h - set.height()) / 2, b.w, set.height()}, c, set,
                    align::centre);
}

bool outlined(toolkit& k, const std::string& key, const std::string& text, box b, const lines& set,
              face f = face::label) {
  const touch t = k.press(key, "button", text, b);
  const pen p = k.ink();
  if (t.held) p.fill_box(b, k.colours().wash, corner);
  p.frame(b, k.colours().ink, k.colours().stroke, corner);
  words_centred(k, f, b, k.colours().ink, set);
  return t.pressed;
}

// Half a narrow column holds few letters: smaller type before a word is broken.
face face_of_half(const toolkit& k, const std::string& left, const std::string& right, float room) {
  const pen p = k.ink();
  const float widest =
      std::max(p.widest_word(face::label, left), p.widest_word(face::label, right));
  return widest <= room ? face::label : face::small_bold;
}

} // namespace

bool primary_button(toolkit& k, const std::string& key, const std::string& text) {
  const words_of w = measure(k, face::label, text, k.column(), sizes::primary_height);
  const auto b = k.place(w.height, 16);
  if (!b) return false;
  const touch t = k.press(key, "button", text, *b, "", "primary");
  const theme& c = k.colours();
  k.ink().fill_box(*b, t.held ? c.ink : c.now, corner);
  words_centred(k, face::label, *b, c.paper, w.set);
  return t.pressed;
}

bool secondary_button(toolkit& k, const std::string& key, const std::string& text) {
  const words_of w = measure(k, face::label, text, k.column(), sizes::target);
  const auto b = k.place(w.height, 12);
  return b && outlined(k, key, text, *b, w.set);
}

bool quiet_button(toolkit& k, const std::string& key, const std::string& text) {
  const words_of w = measure(k, face::body, text, k.column(), 48);
  const auto b = k.place(w.height, 4);
  if (!b) return false;
  float widest = 0;
  const pen p = k.ink();
  for (const std::string& line : w.set.text)
    widest = std::max(widest, p.width(face::body, line));
  const box area{b->x + (b->w - widest) / 2 - 12, b->y, widest + 24, b->h};
  const touch t = k.press(key, "link", text, area);
  const colour c = t.held ? k.colours().now : k.colours().ink;
  words_centred(k, face::body, *b, c, w.set);
  const float under = b->y + (b->h + w.set.height()) / 2 - 1;
  const float last = p.width(face::body, w.set.text.back());
  const float x = b->x + (b->w - last) / 2;
  p.line({x, under}, {x + last, under}, k.colours().quiet, 1);
  return t.pressed;
}

void waiting_button(toolkit& k, const std::string& key, const std::string& text) {
  const words_of w = measure(k, face::label, text, k.column(), sizes::primary_height);
  const auto b = k.place(w.height, 16);
  if (!b) return;
  k.note(key, "button", text, *b).state = "waiting";
  const pen p = k.ink();
  for (const float y : {b->y, b->bottom() - 1}) {
    p.dashes({b->x, y}, {b->right(), y}, k.colours().quiet, 1.5F, 5);
  }
  words_centred(k, face::label, *b, k.colours().quiet, w.set);
}

int button_pair(toolkit& k, const std::string& left_key, const std::string& left_text,
                const std::string& right_key, const std::string& right_text) {
  const float w = (k.column() - 12) / 2;
  constexpr float narrow_room = 12;
  const face f = face_of_half(k, left_text, right_text, w - side_room);
  const float room = f == face::label ? side_room : narrow_room;
  const words_of left = measure(k, f, left_text, w, sizes::target, room);
  const words_of right = measure(k, f, right_text, w, sizes::target, room);
  const auto b = k.place(std::max(left.height, right.height), 12);
  if (!b) return 0;
  int pressed = 0;
  if (outlined(k, left_key, left_text, {b->x, b->y, w, b->h}, left.set, f)) pressed = 1;
  const box other{b->right() - w, b->y, w, b->h};
  if (outlined(k, right_key, right_text, other, right.set, f)) pressed = 2;
  return pressed;
}

bool turn_button(toolkit& k, const std::string& key, const std::string& text, box b,
                 turn_kind kind) {
  const bool main = kind == turn_kind::main;
  const bool forward = kind != turn_kind::back;
  const touch t = k.press(key, "button", text, b, "", main ? "primary" : "");
  const pen p = k.ink();
  const theme& c = k.colours();
  if (main || t.held) p.fill_box(b, main ? (t.held ? c.ink : c.now) : c.wash, corner);
  if (!main) p.frame(b, c.ink, c.stroke, corner);
  const colour ink = main ? c.paper : c.ink;
  constexpr float mark_room = 26;
  const bool large = p.width(face::label, text) + mark_room + 8 <= b.w;
  const face type = large ? face::label : face::small_bold;
  const lines set = p.wrap(type, text, b.w - mark_room - 8, true);
  float words = 0;
  for (const std::string& line : set.text)
    words = std::max(words, p.width(type, line));
  k.mark_cut(words + mark_room > b.w || set.height() > b.h);
  const float x = b.x + (b.w - words - 24) / 2;
  const box mark{forward ? x + words + 8 : x - 2, b.y + (b.h - 18) / 2, 18, 18};
  p.chevron(mark, ink, 3, forward);
  const float y = b.y - 1 + (b.h - set.height()) / 2;
  p.set_lines(type, {forward ? x : x + 24, y, words, set.height()}, ink, set,
              forward ? align::centre : align::left);
  return t.pressed;
}

} // namespace qb::inline ui
