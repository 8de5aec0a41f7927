// Eleven squares in rows of six and five.
// The chosen one is filled and bold; the frame of the others is quiet, the number large.
#include "app/patient/ui/score.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline ui {

namespace {

constexpr float gap = 6;
constexpr int first_row = 6;
constexpr int highest = 10;

bool number_button(toolkit& k, const std::string& key, const std::string& name, int n, box b,
                   bool chosen) {
  const std::string words = fmt::format("{}", n);
  const touch t = k.press(fmt::format("{}-{}", key, n), "choice", name + " " + words, b, words,
                          chosen ? "on" : "off");
  const pen p = k.ink();
  const theme& c = k.colours();
  if (chosen || t.held) p.fill_box(b, chosen ? c.now : c.wash, 5);
  if (!chosen) p.frame(b, c.quiet, 1.6F, 5);
  p.figures(face::label, b.centre(), chosen ? c.paper : c.ink, words);
  return t.pressed;
}

bool skip_button(toolkit& k, const std::string& key, const score_view& view, box row) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const float words = p.width(face::bold, view.skip);
  const box b{row.x, row.y, std::min(row.w, words + 38), row.h};
  const touch t = k.press(key + "-skip", "choice", view.skip, b, "", view.skipped ? "on" : "off");
  k.mark_cut(words + 34 > row.w);
  const point o{b.x + 13, b.centre().y};
  p.ring(o, 11, t.held ? c.now : c.quiet, 2);
  if (view.skipped) p.disc(o, 6, c.now);
  p.text_in(view.skipped ? face::bold : face::body, {b.x + 34, b.y, b.w, b.h}, c.ink, view.skip,
            align::left);
  return t.pressed;
}

// Where the words of leaving out stand: beside the name if both fit, else under the numbers.
struct score_layout {
  lines name;
  float head{}; // height of the name's row
  float cell{}; // width of a number
  float high{}; // and its height
  bool beside{};
  float height{}; // of everything
};
constexpr float ends = 26;

score_layout lay_out(const toolkit& k, const score_view& view) {
  const pen p = k.ink();
  score_layout l;
  l.cell = (k.column() - gap * (first_row - 1)) / first_row;
  l.high = std::min(l.cell, k.stretch(56, 48));
  l.name = p.wrap(face::bold, view.name, k.column());
  const float skip = view.skip.empty() ? 0 : p.width(face::bold, view.skip) + 38;
  l.beside = skip > 0 && l.name.text.size() == 1 &&
             p.width(face::bold, view.name) + 16 + skip <= k.column();
  l.head = l.beside ? 48 : l.name.height() + 8;
  l.height = l.head + 2 * l.high + gap + 4 + ends + (skip > 0 && !l.beside ? 48.0F : 0.0F);
  return l;
}

} // namespace

std::optional<score_press> score(toolkit& k, const std::string& key, const score_view& view) {
  const score_layout l = lay_out(k, view);
  const auto b = k.place(l.height, 20);
  if (!b) return std::nullopt;
  const pen p = k.ink();
  std::optional<score_press> pressed;
  const float middle = l.beside ? (l.head - l.name.height()) / 2 : 0;
  const box title{b->x, b->y + middle, b->w, l.name.height()};
  p.set_lines(face::bold, title, k.colours().ink, l.name);
  k.note(key, "heading", view.name, title).value = view.chosen    ? fmt::format("{}", *view.chosen)
                                                   : view.skipped ? "skipped"
                                                                  : "";
  const float top = b->y + l.head;
  for (int n = 0; n <= highest; ++n) {
    const auto column = static_cast<float>(n % first_row);
    const auto row = static_cast<float>(n / first_row);
    const box square{b->x + column * (l.cell + gap), top + row * (l.high + gap), l.cell, l.high};
    if (number_button(k, key, view.name, n, square, view.chosen == n)) pressed = {false, n};
  }
  const box words{b->x, top + 2 * l.high + gap + 4, b->w, ends};
  p.text_in(face::small, words, k.colours().quiet, "0  " + view.least, align::left);
  p.text_in(face::small, words, k.colours().quiet, "10  " + view.most, align::right);
  k.note(key + "-ends", "text", "0 " + view.least + ", 10 " + view.most, words);
  k.mark_cut(p.width(face::small, "0  " + view.least + "10  " + view.most) + 16 > b->w);
  if (view.skip.empty()) return pressed;
  const float skip_width = p.width(face::bold, view.skip) + 38;
  const box skip = l.beside ? box{b->right() - skip_width, b->y, skip_width, l.head}
                            : box{b->x, words.bottom(), b->w, 48};
  if (skip_button(k, key, view, skip)) pressed = score_press{true, 0};
  return pressed;
}

} // namespace qb::inline ui
