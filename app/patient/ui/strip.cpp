// The frame of a page, drawn.
// The banner is the one large patch of ink on the sheet, so that practice is never taken for real.
#include "app/patient/ui/strip.hpp"
#include "app/patient/ui/rack.hpp"

#include <algorithm>

namespace qb::inline ui {

float banner_height(const pen& p, const std::string& words, float width) {
  return p.wrap(face::small_bold, words, width - 2 * sizes::margin, true).height() + 14;
}

const std::string& banner_words(const page_options& options, const toolkit_words& words) {
  static const std::string none;
  if (options.practice) return words.practice;
  return options.trying ? words.trying : none;
}

void draw_banner(toolkit& k, const page_options& options, box b) {
  const pen p = k.ink();
  const std::string& words = banner_words(options, k.words());
  if (words.empty()) return;
  p.fill_box(b, k.colours().ink);
  const lines set = p.wrap(face::small_bold, words, b.w - 2 * sizes::margin, true);
  p.set_lines(face::small_bold, b.inset(sizes::margin, 7), k.colours().paper, set, align::centre);
  k.note(options.practice ? "practice" : "trying", "banner", words, b);
}

void strip_words(toolkit& k, box b, const std::string& where) {
  const pen p = k.ink();
  p.text_in(face::small_bold, b, k.colours().quiet, where, align::left);
  element& line = k.note("where", "text", where, b);
  line.cut = p.width(face::small_bold, where) > b.w;
  p.line({b.x, b.bottom()}, {b.right(), b.bottom()}, k.colours().hairline, 1);
}

float strip_rack_height(std::size_t tubes) {
  return rack_height(tubes, 34);
}

void strip_rack(toolkit& k, box b, const std::string& where, const std::vector<tube_mark>& tubes) {
  k.note("where", "text", where, b);
  draw_rack(k, b, tubes, 34);
}

bool unwell_button(toolkit& k, box b) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const std::string& words = k.words().unwell;
  face type = face::label;
  const float room = b.w - 44 - 32;
  if (p.width(type, words) > room) type = face::small_bold;
  const float text = p.width(type, words);
  const float w = std::min(b.w, text + 44 + 44);
  const box pill{b.x + (b.w - w) / 2, b.y, w, b.h};
  const touch t = k.press("unwell", "button", words, pill);
  k.mark_cut(text > room);
  if (t.held) p.fill_box(pill, c.wash, b.h / 2);
  p.frame(pill, c.needs_you, c.stroke, b.h / 2 - 1);
  const float x = pill.x + (pill.w - text - 44) / 2;
  const point o{x + 17, pill.centre().y};
  p.ring(o, 15, c.needs_you, 2.5F);
  p.disc({o.x - 5.5F, o.y - 4}, 2.2F, c.needs_you);
  p.disc({o.x + 5.5F, o.y - 4}, 2.2F, c.needs_you);
  p.arc({o.x, o.y + 11}, 7, -0.14F, 0.14F, c.needs_you, 2.5F);
  p.text_in(type, {x + 44, pill.y, text, pill.h}, c.needs_you, words);
  return t.pressed;
}

} // namespace qb::inline ui
