// Timeline, facts, copying cards.
// Hairlines and alignment do the work of frames.
#include "app/patient/ui/lists.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline ui {

namespace {

constexpr float rail = 34; // room for the timeline's marks

const char* word(moment_state s) {
  return s == moment_state::past ? "past" : s == moment_state::now ? "now" : "next";
}

void moment_mark(const pen& p, const theme& c, point o, moment_state s) {
  if (s == moment_state::past) {
    p.disc(o, 10, c.quiet);
    p.tick({o.x - 6, o.y - 6, 12, 12}, c.paper, 2.4F);
  } else if (s == moment_state::now) {
    p.disc(o, 11, c.now);
    p.disc(o, 4, c.paper);
  } else {
    p.disc(o, 8, c.paper);
    p.ring(o, 8, c.quiet, 2);
  }
}

void one_moment(toolkit& k, const std::string& key, const moment& m, bool first, bool last) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const float w = k.column() - rail;
  const bool now = m.state == moment_state::now;
  const lines time = p.wrap(now ? face::bold : face::small_bold, m.time, w);
  const lines words = p.wrap(now ? face::bold : face::body, m.words, w);
  constexpr float below = 18;
  const float text = time.height() + words.height();
  const auto b = k.place(text + (last ? 0 : below), first ? 16.0F : 0.0F);
  if (!b) return;
  const colour ink = m.state == moment_state::past ? c.quiet : c.ink;
  const point o{b->x + 12, b->y + time.leading / 2};
  if (!last) p.line({o.x - 1, o.y}, {o.x - 1, b->bottom() + 1}, c.quiet, 1.5F);
  if (!first) p.line({o.x - 1, b->y}, {o.x - 1, o.y}, c.quiet, 1.5F);
  moment_mark(p, c, o, m.state);
  const float x = b->x + rail;
  p.set_lines(now ? face::bold : face::small_bold, {x, b->y, w, time.height()},
              now ? c.now : c.quiet, time);
  p.set_lines(now ? face::bold : face::body, {x, b->y + time.height(), w, words.height()}, ink,
              words);
  element& line = k.note(key, "row", m.words, {b->x, b->y, b->w, text});
  line.value = m.time;
  line.state = word(m.state);
}

void one_fact(toolkit& k, const std::string& key, const fact& f, float gap) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const float label_w = p.width(face::body, f.label);
  const float value_w = p.width(face::bold, f.value);
  const bool one_line = label_w + value_w + 20 <= k.column();
  const lines label = p.wrap(face::body, f.label, k.column());
  const lines value = p.wrap(face::bold, f.value, k.column());
  const float text = one_line ? label.leading : label.height() + value.height();
  const auto b = k.place(text + 17, gap);
  if (!b) return;
  const box row{b->x, b->y + 8, b->w, text};
  const colour ink = f.needs_you ? c.needs_you : c.ink;
  p.set_lines(face::body, row, c.quiet, label);
  if (one_line) {
    p.text_in(face::bold, row, ink, f.value, align::right);
  } else {
    const box below{row.x, row.y + label.height(), row.w, value.height()};
    p.set_lines(face::bold, below, ink, value, align::right);
  }
  p.line({b->x, b->bottom() - 1}, {b->right(), b->bottom() - 1}, c.hairline, 1);
  element& line = k.note(key, "row", f.label, *b);
  line.value = f.value;
  line.state = f.needs_you ? "needs-you" : "";
}

// A row of the label: all values in one size, a long one over two lines or under its caption.
struct label_row {
  lines caption;
  lines value;
  bool below{false};
  float height{};
};

label_row measure_row(const toolkit& k, const fact& f, float width) {
  const pen p = k.ink();
  label_row r;
  r.caption = p.wrap(face::small, f.label, width);
  const float beside = width - p.width(face::small, f.label) - 12;
  if (beside > 0) r.value = p.wrap(face::label, f.value, beside, true);
  r.below = beside <= 0 || r.value.text.size() > 2;
  if (r.below) r.value = p.wrap(face::label, f.value, width, true);
  const float text = r.value.height() + (r.below ? r.caption.height() : 0);
  r.height = std::max(k.stretch(46, 35), text + k.stretch(12, 7));
  return r;
}

} // namespace

void timeline(toolkit& k, const std::string& key, const std::vector<moment>& moments) {
  for (std::size_t i = 0; i < moments.size(); ++i) {
    one_moment(k, fmt::format("{}-{}", key, i + 1), moments[i], i == 0, i + 1 == moments.size());
  }
}

void facts(toolkit& k, const std::string& key, const std::vector<fact>& rows) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    one_fact(k, fmt::format("{}-{}", key, i + 1), rows[i], i == 0 ? 12.0F : 0.0F);
  }
}

void copy_card(toolkit& k, const std::string& key, const std::string& tube_word,
               const copy_row& row) {
  const pen p = k.ink();
  const theme& c = k.colours();
  const float line = 56;
  const auto b = k.place(line + 22, 16);
  if (b) {
    const float half = b->w * 0.42F;
    p.text_in(face::small, {b->x, b->y, half, 22}, c.quiet, tube_word, align::left);
    p.text_in(face::figure, {b->x, b->y + 22, half, line}, c.ink, row.number, align::left);
    const bool figure = p.width(face::figure, row.time) <= b->w - half;
    const box time{b->x + half, b->y + 22, b->w - half, line};
    p.text_in(figure ? face::figure : face::label, time, c.ink, row.time, align::right);
    p.fill_box({b->x, b->bottom() - 2, b->w, 2}, c.ink);
    element& e = k.note(key, "row", tube_word + " " + row.number, *b);
    e.value = row.time;
    e.cut = !figure && p.width(face::label, row.time) > time.w;
  }
  facts(k, key + "-score", row.scores);
  if (row.note.empty()) return;
  const lines words = p.wrap(face::body, row.note, k.column());
  const auto n = k.place(words.height(), 12);
  if (!n) return;
  p.set_lines(face::body, *n, c.ink, words);
  k.note(key + "-note", "text", row.note, *n);
}

void label_card(toolkit& k, const std::string& key, const std::string& title,
                const std::vector<fact>& fields) {
  const pen p = k.ink();
  const theme& c = k.colours();
  constexpr float side = 16;
  const float head = k.stretch(36, 30);
  const float width = k.column() - 2 * side;
  std::vector<label_row> rows;
  float high = head + k.stretch(12, 4);
  for (const fact& f : fields) {
    rows.push_back(measure_row(k, f, width));
    high += rows.back().height;
  }
  const auto b = k.place(high, 16);
  if (!b) return;
  p.fill_box(*b, c.wash, 8);
  p.frame(*b, c.ink, c.stroke, 8);
  p.text_in(face::small_bold, {b->x + side, b->y + 4, width, head - 4}, c.ink, title, align::left);
  k.note(key, "image", title, *b);
  float y = b->y + head;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    const fact& f = fields[i];
    const label_row& r = rows[i];
    const box line{b->x + side, y, width, r.height};
    const float text = r.caption.height() + r.value.height();
    const float top = line.y + (r.height - 6 - (r.below ? text : r.value.height())) / 2;
    const float first = r.below ? r.caption.height() : r.value.leading;
    p.text_in(face::small, {line.x, top, width, first}, c.quiet, f.label, align::left);
    const float value_top = top + (r.below ? r.caption.height() : 0);
    p.set_lines(face::label, {line.x, value_top, width, r.value.height()},
                f.needs_you ? c.now : c.ink, r.value, align::right);
    p.line({line.x, line.bottom() - 4}, {line.right(), line.bottom() - 4}, c.quiet, 1);
    element& e = k.note(fmt::format("{}-{}", key, i + 1), "row", f.label, line);
    e.value = f.value;
    e.cut = p.width(face::small, f.label) > width;
    y += r.height;
  }
}

} // namespace qb::inline ui
