// Keys in rows, a row or two of controls under them.
// Which characters stand on a leaf is fixed here; the words on the controls are the caller's.
#include "app/patient/ui/keyboard.hpp"
#include "app/patient/ui/capitals.hpp"
#include "core/base/text.hpp"

#include <imgui.h>

#include <algorithm>

namespace qb::inline ui {

namespace {

using panel = keyboard_state::panel;

constexpr float gap = 4;
constexpr float tallest = 56;
constexpr float tallest_digit = 72;
constexpr int accent_pages = 2;

// A blank stands for a place without a key: the nought goes under the eight.
const char* characters_on(const keyboard_state& s, text_kind kind) {
  if (kind == text_kind::number) return "123-456.789/ 0";
  if (s.showing == panel::digits) return "1234567890-./:,;()+&@'!?";
  if (s.showing == panel::accents) {
    return s.accent_page == 0 ? "àáâäãåæçèéêëìíîïñòóôöøœßùúûü" : "ăąćčďđęěğıłńňőřśşšșťțůűýÿźżž";
  }
  if (kind == text_kind::code) return "abcdefghijklmnopqrstuvwxyz0123456789-";
  return "abcdefghijklmnopqrstuvwxyz'-";
}

std::size_t columns_for(float width, const keyboard_state& s, text_kind kind) {
  if (kind == text_kind::number) return 4;
  const auto fit = static_cast<int>((width + gap) / (45 + gap));
  const int most = std::clamp(fit, 6, 10);
  return static_cast<std::size_t>(s.showing == panel::digits && most < 10 ? 5 : most);
}

struct control {
  std::string key;
  std::string name;
  float share; // of the row
};

std::vector<std::vector<control>> controls_for(const toolkit& k, const keyboard_state& s,
                                               text_kind kind, bool wide) {
  const toolkit_words& w = k.words();
  std::vector<control> first;
  if (kind == text_kind::name || kind == text_kind::plain) {
    first.push_back({"key-shift", w.shift, 1});
    if (s.showing != panel::letters) first.push_back({"key-letters", w.letters, 1});
    if (s.showing != panel::accents || accent_pages > 1) {
      first.push_back({"key-accents", w.accents, 1});
    }
    if (s.showing != panel::digits) first.push_back({"key-digits", w.digits, 1});
  }
  first.push_back({"key-erase", w.erase, 1});
  std::vector<control> second;
  if (kind == text_kind::name || kind == text_kind::plain) {
    second.push_back({"key-space", w.space, 1.5F});
  }
  second.push_back({"key-done", w.done, 1.5F});
  if (!wide) {
    if (first.size() > 1) return {first, second};
    second.insert(second.begin(), first.front());
    return {second};
  }
  first.insert(first.end(), second.begin(), second.end());
  return {first};
}

void arrow_up(const pen& p, point o, colour c, bool solid) {
  const std::vector<point> shape{{o.x, o.y - 11},     {o.x + 11, o.y + 1}, {o.x + 5, o.y + 1},
                                 {o.x + 5, o.y + 10}, {o.x - 5, o.y + 10}, {o.x - 5, o.y + 1},
                                 {o.x - 11, o.y + 1}};
  if (solid) {
    p.fill({shape[0], shape[1], shape[6]}, c);
    p.fill_box({o.x - 5, o.y, 10, 10}, c);
  } else {
    p.path(shape, c, 2, true);
  }
}

void erase_mark(const pen& p, point o, colour c) {
  p.path({{o.x - 14, o.y},
          {o.x - 6, o.y - 9},
          {o.x + 13, o.y - 9},
          {o.x + 13, o.y + 9},
          {o.x - 6, o.y + 9}},
         c, 2, true);
  p.cross({o.x - 2, o.y - 5, 10, 10}, c, 2);
}

bool draw_control(toolkit& k, const control& one, box b) {
  const bool done = one.key == "key-done";
  const bool shift = one.key == "key-shift";
  const bool on = shift && k.keyboard().capital;
  const touch t = k.press(one.key, "key", one.name, b, "", on ? "on" : "", hearing::always);
  if (t.pressed && done) k.leads_on();
  const pen p = k.ink();
  const theme& c = k.colours();
  p.fill_box(b, done ? (t.held ? c.ink : c.now) : c.wash, 5);
  if (t.held) p.frame(b, c.now, 2, 5);
  const colour ink = done ? c.paper : c.ink;
  if (shift) {
    arrow_up(p, b.centre(), ink, on);
  } else if (one.key == "key-erase") {
    erase_mark(p, b.centre(), ink);
  } else {
    const face type = p.width(face::label, one.name) + 8 <= b.w ? face::label : face::small_bold;
    p.text_in(type, b, ink, one.name);
    k.mark_cut(p.width(type, one.name) > b.w);
  }
  return t.pressed;
}

void apply_control(keyboard_state& s, const std::string& key, std::string& value, field_event& e) {
  if (key == "key-shift") s.capital = !s.capital;
  if (key == "key-letters") s.showing = panel::letters;
  if (key == "key-digits") s.showing = panel::digits;
  if (key == "key-accents") {
    s.accent_page = s.showing == panel::accents ? (s.accent_page + 1) % accent_pages : 0;
    s.showing = panel::accents;
  }
  if (key == "key-erase") {
    erase_last_character(value);
    e = field_event::changed;
  }
  if (key == "key-done") e = field_event::done;
}

void add(const field_view& view, std::string& value, const std::string& text, field_event& e) {
  // A mark typed behind its letter is one character with it, as on a keyboard that has both.
  std::string longer = composed(value + text);
  if (character_count(longer) > view.longest) return;
  value = std::move(longer);
  e = field_event::changed;
}

// Keys of characters, row by row. Answers the pressed one as it is to be written.
std::string draw_characters(toolkit& k, box area, float high, std::size_t columns,
                            const std::vector<std::string>& keys, bool upper) {
  std::string pressed;
  const float wide = (area.w - gap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  const pen p = k.ink();
  for (std::size_t i = 0; i < keys.size(); ++i) {
    if (keys[i] == " ") continue;
    const auto column = static_cast<float>(i % columns);
    const auto row = static_cast<float>(i / columns);
    const box b{area.x + column * (wide + gap), area.y + row * (high + gap), wide, high};
    const std::string shown = upper ? capitals(keys[i]) : keys[i];
    const touch t = k.press("key-" + keys[i], "key", shown, b, "", "", hearing::always);
    p.fill_box(b, t.held ? k.colours().now : k.colours().paper, 5);
    p.frame(b, k.colours().quiet, 1.4F, 5);
    p.text_in(face::label, b, t.held ? k.colours().paper : k.colours().ink, shown);
    if (t.pressed) pressed = shown;
  }
  return pressed;
}

// The characters typed in this frame. Dear ImGui queues 16 bits of each: the window puts a larger
// one before it in two halves (app/glass/window.cpp), and what Dear ImGui itself made of it is
// none.
std::u32string typed_in_frame() {
  std::u32string out;
  char32_t high = 0;
  for (const ImWchar c : ImGui::GetIO().InputQueueCharacters) {
    const bool first_half = c >= 0xD800 && c <= 0xDBFF;
    const bool second_half = c >= 0xDC00 && c <= 0xDFFF;
    if (second_half && high != 0)
      out += static_cast<char32_t>(0x10000U + ((high - 0xD800U) << 10U) + (c - 0xDC00U));
    high = first_half ? c : 0;
    if (!first_half && !second_half && c != no_character) out += c;
  }
  return out;
}

// What a real keyboard typed in this frame.
void real_keys(const field_view& view, std::string& value, field_event& e) {
  for (const char32_t c : typed_in_frame()) {
    if (c < 0x20 || (c >= 0x7F && c <= 0x9F)) continue;
    std::string typed;
    append_character(typed, c);
    add(view, value, view.kind == text_kind::code ? capitals(typed) : typed, e);
  }
  const auto pressed = [](ImGuiKey key, bool repeat) {
    return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), repeat);
  };
  if (pressed(ImGuiKey_Backspace, true)) {
    erase_last_character(value);
    e = field_event::changed;
  }
  if (pressed(ImGuiKey_Enter, false) || pressed(ImGuiKey_KeyPadEnter, false) ||
      pressed(ImGuiKey_Escape, false)) {
    e = field_event::done;
  }
}

} // namespace

field_event typed_characters(const field_view& view, std::string& value) {
  field_event e = field_event::none;
  const auto& typed = ImGui::GetIO().InputQueueCharacters;
  const bool any = std::any_of(typed.begin(), typed.end(), [](ImWchar c) { return c > 0x20; });
  if (any) real_keys(view, value, e);
  return e;
}

bool wants_capital(text_kind kind, const std::string& value) {
  if (kind == text_kind::code) return true;
  if (kind == text_kind::number) return false;
  if (value.empty()) return true;
  return kind == text_kind::name && (value.back() == ' ' || value.back() == '-');
}

field_event keyboard(toolkit& k, box area, const field_view& view, std::string& value) {
  keyboard_state& s = k.keyboard();
  const std::vector<std::string> keys = characters(characters_on(s, view.kind));
  const std::size_t columns = columns_for(area.w, s, view.kind);
  const bool wide = area.w > 600;
  const auto controls = controls_for(k, s, view.kind, wide);
  const std::size_t rows = (keys.size() + columns - 1) / columns + controls.size();
  const float room = (area.h + gap) / static_cast<float>(rows) - gap;
  const float most = view.kind == text_kind::number ? tallest_digit : tallest;
  const float high = std::clamp(room, sizes::least_target, most);
  const float floor = area.bottom();
  area.y = floor - (high + gap) * static_cast<float>(rows) + gap;
  field_event e = field_event::none;
  real_keys(view, value, e);
  const std::string typed = draw_characters(k, area, high, columns, keys, s.capital);
  if (!typed.empty()) add(view, value, typed, e);
  float y = floor - (high + gap) * static_cast<float>(controls.size()) + gap;
  std::string control_pressed;
  for (const auto& row : controls) {
    float shares = 0;
    for (const control& one : row)
      shares += one.share;
    const float unit = (area.w - gap * static_cast<float>(row.size() - 1)) / shares;
    float x = area.x;
    for (const control& one : row) {
      if (draw_control(k, one, {x, y, unit * one.share, high})) control_pressed = one.key;
      x += unit * one.share + gap;
    }
    y += high + gap;
  }
  if (control_pressed == "key-space") add(view, value, " ", e);
  apply_control(s, control_pressed, value, e);
  if (e == field_event::changed) s.capital = wants_capital(view.kind, value);
  if (e == field_event::done) k.keyboard() = {};
  return e;
}

} // namespace qb::inline ui
