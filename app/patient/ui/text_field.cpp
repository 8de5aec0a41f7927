// The written line, at rest and while typing.
// At rest it is a ruled line of a form; while typing it stands alone above the keyboard.
#include "app/patient/ui/text_field.hpp"
#include "app/patient/ui/keyboard.hpp"

#include <algorithm>

namespace qb::inline ui {

namespace {

void pencil(const pen& p, point at, colour c) {
  p.path({{at.x, at.y + 16},
          {at.x + 2, at.y + 11},
          {at.x + 13, at.y},
          {at.x + 17, at.y + 4},
          {at.x + 6, at.y + 15},
          {at.x, at.y + 17}},
         c, 1.8F);
}

void open_keyboard(toolkit& k, const std::string& key, const field_view& view,
                   const std::string& value) {
  keyboard_state fresh;
  fresh.key = key;
  fresh.showing = view.kind == text_kind::number ? keyboard_state::panel::digits
                                                 : keyboard_state::panel::letters;
  fresh.capital = wants_capital(view.kind, value);
  k.keyboard() = fresh;
}

// The first characters of a scanner find the line at rest; the rest come while it is open.
field_event scanned(toolkit& k, const std::string& key, const field_view& view,
                    std::string& value) {
  if (!view.takes_typing || k.running() != pass::draw) return field_event::none;
  std::string fresh; // a scan replaces what stood there
  const field_event e = typed_characters(view, fresh);
  if (e == field_event::none || fresh.empty()) return field_event::none;
  value = fresh;
  if (e == field_event::changed) open_keyboard(k, key, view, value);
  return e;
}

field_event at_rest(toolkit& k, const std::string& key, const field_view& view,
                    const std::string& value) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const bool wrong = !view.complaint.empty();
  const std::string& below = wrong                         ? view.complaint
                             : !p.faces().printable(value) ? k.words().no_font
                                                           : view.hint;
  const lines label = p.wrap(face::small, view.label, k.column());
  const lines words = p.wrap(face::label, value, k.column() - 36);
  lines under;
  if (!below.empty()) under = p.wrap(wrong ? face::small_bold : face::small, below, k.column());
  const float line = std::max(34.0F, words.height() + 6);
  const float press = label.height() + line;
  const auto b = k.place(press + (below.empty() ? 0 : under.height() + 4), 20);
  if (!b) return field_event::none;
  const box area{b->x, b->y, b->w, press};
  const touch t = k.press(key, "textbox", view.label, area, value, wrong ? "needs-you" : "");
  if (t.held) p.fill_box(area, c.wash);
  p.set_lines(face::small, area, c.quiet, label);
  p.set_lines(face::label, {b->x, b->y + label.height() + 2, b->w, words.height()}, c.ink, words);
  pencil(p, {b->right() - 20, area.bottom() - 26}, wrong ? c.needs_you : c.quiet);
  const colour rule = wrong ? c.needs_you : c.ink;
  p.fill_box({b->x, area.bottom() - 2, b->w, wrong ? 3.0F : 1.5F}, rule);
  if (!below.empty()) {
    const box text{b->x, area.bottom() + 4, b->w, under.height()};
    p.set_lines(wrong ? face::small_bold : face::small, text, wrong ? c.needs_you : c.quiet, under);
    k.note(key + "-hint", wrong ? "note" : "text", below, text);
  }
  if (t.pressed) open_keyboard(k, key, view, value);
  return field_event::none;
}

// The line above the keyboard; a long value shows its last lines. Answers the line's bottom.
float draw_typed(toolkit& k, const std::string& key, const field_view& view,
                 const std::string& value) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const box area = k.edit_area().inset(sizes::margin, 0);
  const lines label = p.wrap(face::bold, view.label, area.w);
  lines words = p.wrap(face::label, value, area.w - 8);
  constexpr std::size_t shown = 2;
  if (words.text.size() > shown) {
    words.text.erase(words.text.begin(), words.text.end() - static_cast<long>(shown));
  }
  p.set_lines(face::bold, area, c.ink, label);
  const float y = area.y + label.height() + 4;
  p.set_lines(face::label, {area.x, y, area.w, words.height()}, c.ink, words);
  const float bottom = y + words.height() + 6;
  const float x = area.x + p.width(face::label, words.text.back()) + 3;
  p.fill_box({x, bottom - words.leading - 3, 3, words.leading - 2}, c.now);
  p.fill_box({area.x, bottom, area.w, 2.5F}, c.now);
  element& line = k.note(key, "textbox", view.label, {area.x, area.y, area.w, bottom - area.y});
  line.value = value;
  line.state = "editing";
  if (p.faces().printable(value)) return bottom + 14;
  const lines said = p.wrap(face::small, k.words().no_font, area.w);
  const box under{area.x, bottom + 6, area.w, said.height()};
  p.set_lines(face::small, under, c.quiet, said);
  k.note(key + "-letters", "note", k.words().no_font, under);
  return under.bottom() + 8;
}

} // namespace

field_event text_field(toolkit& k, const std::string& key, const field_view& view,
                       std::string& value) {
  if (k.running() != pass::edit) {
    const field_event e = scanned(k, key, view, value);
    const field_event pressed = at_rest(k, key, view, value);
    return e == field_event::none ? pressed : e;
  }
  if (k.keyboard().key != key) return field_event::none;
  const float top = draw_typed(k, key, view, value);
  const box whole = k.edit_area();
  const box keys{8, top, whole.w - 16, whole.bottom() - top};
  return keyboard(k, keys, view, value);
}

} // namespace qb::inline ui
