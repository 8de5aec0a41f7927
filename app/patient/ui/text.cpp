// Running text and its relations.
// A paragraph that is longer than what is left of a leaf goes over whole if it can, else by lines.
#include "app/patient/ui/text.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline ui {

namespace {

struct setting {
  face type;
  colour ink;
  float gap;
  const char* role;
  bool balanced{false};
  float keep{0};
  align side{align::left};
};

// Lines that are kept together; longer texts are cut into groups of about equal length.
constexpr std::size_t most_together = 6;

void set_text(toolkit& k, const std::string& key, const std::string& text, const setting& how) {
  const lines all = k.ink().wrap(how.type, text, k.column(), how.balanced);
  const std::size_t count = all.text.size();
  const std::size_t groups = (count + most_together - 1) / most_together;
  const std::size_t group = (count + groups - 1) / groups;
  for (std::size_t from = 0; from < count; from += group) {
    lines part;
    part.leading = all.leading;
    const std::size_t to = std::min(from + group, count);
    for (std::size_t i = from; i < to; ++i)
      part.text.push_back(all.text[i]);
    const auto b = k.place(part.height(), from == 0 ? how.gap : 0, how.keep);
    if (!b) continue;
    k.ink().set_lines(how.type, *b, how.ink, part, how.side);
    k.note(from == 0 ? key : fmt::format("{}-part{}", key, from / group + 1), how.role, text, *b);
  }
}

} // namespace

void headline(toolkit& k, const std::string& key, const std::string& text) {
  set_text(k, key, text, {face::headline, k.colours().ink, 20, "heading", true, 60});
  (void)k.place(4, 0, 1); // what follows stands a little off
}

void over_headline(toolkit& k, const std::string& key, const std::string& text) {
  set_text(k, key, text, {face::small, k.colours().quiet, 8, "text", false, 60});
}

void paragraph(toolkit& k, const std::string& key, const std::string& text) {
  set_text(k, key, text, {face::body, k.colours().ink, 12, "text"});
}

void strong(toolkit& k, const std::string& key, const std::string& text) {
  set_text(k, key, text, {face::bold, k.colours().ink, 12, "text"});
}

void heading(toolkit& k, const std::string& key, const std::string& text) {
  set_text(k, key, text, {face::bold, k.colours().ink, 24, "heading", false, 64});
}

void quiet_text(toolkit& k, const std::string& key, const std::string& text) {
  set_text(k, key, text, {face::small, k.colours().quiet, 8, "text"});
}

void notice(toolkit& k, const std::string& key, notice_kind kind, const std::string& text) {
  const bool loud = kind == notice_kind::needs_you;
  const float indent = loud ? 48 : 20;
  const face type = loud ? face::bold : face::body;
  const lines set = k.ink().wrap(type, text, k.column() - indent);
  const float high = std::max(set.height(), loud ? 32.0F : 0.0F);
  const auto b = k.place(high + 8, 20);
  if (!b) return;
  const pen p = k.ink();
  const theme& c = k.colours();
  const colour rule = loud ? c.needs_you : c.quiet;
  p.fill_box({b->x, b->y, loud ? 5.0F : 3.0F, b->h}, rule);
  if (loud) {
    const point o{b->x + 28, b->y + b->h / 2};
    p.disc(o, 13, c.needs_you);
    p.path({{o.x, o.y - 6.5F}, {o.x, o.y + 1}}, c.paper, 3);
    p.disc({o.x, o.y + 6}, 1.9F, c.paper);
  }
  const box words{b->x + indent, b->y + (b->h - set.height()) / 2, b->w - indent, set.height()};
  p.set_lines(type, words, loud ? c.needs_you : c.ink, set);
  k.note(key, "note", text, *b).state = loud ? "needs-you" : "note";
}

void big_figure(toolkit& k, const std::string& key, const std::string& caption,
                const std::string& figure) {
  const pen p = k.ink();
  const face type =
      has_all_glyphs(p.faces(), face::figure, figure) && p.width(face::figure, figure) <= k.column()
          ? face::figure
          : face::headline;
  const lines above = p.wrap(face::small, caption, k.column());
  const lines set = p.wrap(type, figure, k.column(), true);
  const float top = caption.empty() ? 0 : above.height();
  const auto b = k.place(top + set.height(), 16);
  if (!b) return;
  if (!caption.empty()) p.set_lines(face::small, *b, k.colours().quiet, above);
  p.set_lines(type, {b->x, b->y + top, b->w, set.height()}, k.colours().ink, set);
  k.note(key, "figure", caption, *b).value = figure;
}

void whom_to_call(toolkit& k, const std::string& key, const contact& c) {
  const pen p = k.ink();
  constexpr float enough = 0.5F; // of the room: with less it is set as tight as a headline
  const bool roomy = k.stretch(1, 0) > enough;
  const bool large = roomy && has_all_glyphs(p.faces(), face::figure, c.telephone) &&
                     p.width(face::figure, c.telephone) <= k.column();
  const face type = large ? face::figure : face::headline;
  const auto small = [&](const std::string& text) {
    lines set = p.wrap(face::small, text, k.column());
    if (!roomy) set.leading = sizes::small * sizes::tight_leading;
    return set;
  };
  const lines name = small(c.name);
  const lines hours = small(c.hours);
  const lines figure = p.wrap(type, c.telephone, k.column(), true);
  // Never cut: a number is of no use without its hours.
  const float upper = name.height() + figure.height();
  if (const auto b = k.place(upper + hours.height(), k.stretch(16, 4))) {
    const box number{b->x, b->y, b->w, upper};
    p.set_lines(face::small, number, k.colours().quiet, name);
    p.set_lines(type, {b->x, b->y + name.height(), b->w, figure.height()}, k.colours().ink, figure);
    k.note(key, "figure", c.name, number).value = c.telephone;
    const box below{b->x, b->y + upper, b->w, hours.height()};
    p.set_lines(face::small, below, k.colours().quiet, hours);
    k.note(key + "-hours", "text", c.hours, below);
  }
}

void hairline(toolkit& k) {
  const auto b = k.place(1, 16, -1);
  if (b) k.ink().line({b->x, b->y}, {b->right(), b->y}, k.colours().hairline, 1);
}

} // namespace qb::inline ui
