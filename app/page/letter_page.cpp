// A letter's typesetting, in the order it is read.
#include "app/page/letter_page.hpp"

#include "app/page/pages.hpp"
#include "app/page/report_page.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double margin = mm(25);
constexpr double wide = a4_width - 2 * margin;
constexpr double foot_top = a4_height - mm(20);
constexpr double air = 8;
constexpr double hair = 0.4;
constexpr double pen_line = 26; // from one line to write on to the next
constexpr type_style plain{10.5};
constexpr type_style strong{10.5, true};
constexpr type_style small{8.5, false, align::left, true};
constexpr type_style heading{11.5, true};
constexpr type_style title{15, true};

class letter_writer {
public:
  letter_writer(canvas& c, const letter_set& all) : c_(c), all_(all) {}

  void draw(const letter& one) {
    y_ = margin * 0.7;
    marks();
    for (const std::string& line : all_.from)
      put(line, &line == &all_.from.front() ? strong : small);
    y_ += air;
    framed(letter_draft, 10);
    addressed(one.to);
    put(one.title, title, "H1");
    y_ += air;
    for (const sheet_fact& f : one.facts)
      fact(f);
    y_ += one.facts.empty() ? 0 : air;
    for (const letter_part& part : one.parts)
      draw(part);
    for (const std::string& blank : one.blanks)
      to_write_on(blank);
    signature();
    foot();
  }

private:
  void marks() {
    if (all_.practice) framed(practice_mark, 13);
    if (!all_.mark.empty()) framed(all_.mark, 10);
  }

  void framed(const std::string& words, double size) {
    const type_style style{size, true, align::centre};
    const double high = c_.height_of(wide, words, style);
    const tag p(c_, "P");
    c_.frame(margin, y_, wide, high + 4, 1.4);
    c_.text(margin, y_ + 2, wide, {words, "mark"}, style);
    y_ += high + 4 + air;
  }

  void put(const std::string& words, const type_style& style, const char* what = "P",
           double in = 0) {
    if (words.empty()) return;
    need(c_.height_of(wide - in, words, style));
    const tag t(c_, what);
    y_ += c_.text(margin + in, y_, wide - in, {words, "letter"}, style);
  }

  void addressed(const std::string& to) {
    y_ += air;
    if (to.empty())
      to_write_on("To");
    else
      put("To " + to, strong);
    y_ += air;
  }

  void fact(const sheet_fact& f) {
    constexpr double name_wide = 120;
    const double high = c_.height_of(wide - name_wide, f.value, plain);
    need(high);
    const tag p(c_, "P");
    c_.text(margin, y_ + 1.5, name_wide, {f.name, "letter"}, small);
    c_.text(margin + name_wide, y_, wide - name_wide, {f.value, f.name}, plain);
    y_ += high + 1;
  }

  void draw(const letter_part& part) {
    put(part.title, heading, "H2");
    if (!part.title.empty()) y_ += 2;
    for (const std::string& line : part.lines) {
      put(line, plain);
      y_ += air * 0.5;
    }
    constexpr double in = 12;
    for (const std::string& item : part.items) {
      need(c_.height_of(wide - in, item, plain));
      const tag p(c_, "P");
      c_.text(margin, y_, in, {"-", "letter"}, plain);
      y_ += c_.text(margin + in, y_, wide - in, {item, "letter"}, plain) + 2;
    }
    y_ += air;
  }

  void to_write_on(const std::string& name) {
    need(pen_line);
    y_ += pen_line;
    const tag p(c_, "P");
    const double own = c_.width_of(name, small) + 6;
    c_.text(margin, y_ - plain.size, own, {name, "letter"}, small);
    c_.line(margin + own, y_, margin + wide, y_, hair);
  }

  void signature() {
    need(pen_line * 2);
    y_ += pen_line * 1.6;
    const tag p(c_, "P");
    double x = margin;
    for (const char* name : {"Name", "Signature", "Date"}) {
      const double end = x + wide / 3 - air;
      const double own = c_.width_of(name, small) + 4;
      c_.text(x, y_ - plain.size, own, {name, "letter"}, small);
      c_.line(x + own, y_, end, y_, hair);
      x += wide / 3;
    }
  }

  void need(double high) {
    if (y_ + high <= foot_top) return;
    foot();
    c_.next_page();
    y_ = margin * 0.7;
    marks();
    framed(letter_draft, 10);
  }

  void foot() {
    const double y = foot_top + mm(3);
    c_.line(margin, y, margin + wide, y, hair);
    const tag p(c_, "P");
    c_.text(margin, y + 3, wide, {all_.foot, "foot"}, {8, false, align::left, true, 2});
  }

  canvas& c_;
  const letter_set& all_;
  double y_{0};
};

} // namespace

result<std::string> draw_letters_pdf(const letter_set& all, const std::string& made_at) {
  QB_BELIEVE(!all.letters.empty());
  canvas c(all.letters.front().title, made_at);
  c.set_keywords(report_keywords(true));
  const tag document(c, "Document");
  letter_writer writer(c, all);
  for (const letter& one : all.letters) {
    if (&one != &all.letters.front()) c.next_page();
    writer.draw(one);
  }
  return c.finish();
}

} // namespace qb::page
