// Labels: the name top left, the tube's number as large as the label allows, a line for what only
// the moment can tell.
#include "app/page/pages.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double pad_x = mm(5);
constexpr double pad_y = mm(2.8);
constexpr double number_width = mm(19);
constexpr double cross = mm(1.5);
constexpr double hair = 0.3;
constexpr double leading = 2.5; // free space within a line, over its letters
constexpr type_style fact_style{8.5};
constexpr type_style when_style{11.5, true};

// The largest of three sizes in which the name stands on one line; else the smallest on two.
type_style name_style(canvas& c, const std::string& name, double width) {
  type_style style{11.5, true};
  for (const double size : std::array<double, 3>{11.5, 10, 9}) {
    style.size = size;
    if (c.width_of(name, style) <= width) return style;
  }
  style.most_lines = 2;
  return style;
}

// A small cross at each corner shows where to cut, and does not show beside a sticker's edge.
void corners(canvas& c, double x, double y, double w, double h) {
  for (const double at_x : {x, x + w}) {
    for (const double at_y : {y, y + h}) {
      c.line(at_x - cross, at_y, at_x + cross, at_y, hair);
      c.line(at_x, at_y - cross, at_x, at_y + cross, hair);
    }
  }
}

// Date and time: printed once known, else lines to write on, which must be quick with a pen.
void draw_when(canvas& c, const label_text& l, double x, double bottom, double width) {
  const tag p(c, "P");
  constexpr double name_gap = 3;
  constexpr double time_from = 0.62; // of the width; a date is the longer of the two
  constexpr type_style name{8, false, align::left, true};
  const std::string what = fmt::format("label {}", l.number.value());
  const auto one = [&](double at, double until, const char* label, const std::string& text) {
    const double name_w = c.width_of(label, name) + name_gap;
    c.text(at, bottom - c.height_of(-1, label, name), name_w, {label, what}, name);
    if (text.empty()) {
      c.line(at + name_w, bottom - 2, until, bottom - 2, hair * 2);
    } else {
      const double high = c.height_of(-1, text, when_style);
      c.text(at + name_w, bottom - high + 1, until - at - name_w, {text, what + " time"},
             when_style);
    }
  };
  one(x, x + width * time_from - mm(2.5), "Date", l.date);
  one(x + width * time_from, x + width, "Time", l.time);
}

// One label while it is drawn: facts down the left, the number at the right.
class label_writer {
public:
  label_writer(canvas& c, const label_text& l, double left, double top, const label_grid& g)
      : c_(c),
        l_(l),
        what_(fmt::format("label {}", l.number.value())),
        x_(left + pad_x),
        y_(top + pad_y),
        bottom_(top + mm(g.height) - pad_y),
        width_(mm(g.width) - 2 * pad_x) {}

  void draw() {
    const tag section(c_, "Sect");
    {
      const tag p(c_, "P");
      y_ += c_.text(x_, y_, width_, {l_.name, what_ + " name"}, name_style(c_, l_.name, width_));
    }
    number();
    double floor = bottom_ - c_.height_of(-1, "0", when_style);
    if (l_.rehearsal) {
      const tag p(c_, "P");
      constexpr type_style style{12, true};
      floor -= c_.height_of(width_, practice_mark, style) - leading;
      c_.text(x_, floor, width_, {practice_mark, what_}, style);
    }
    fact("Born " + l_.birth_date, "birth date", 1);
    // The kit number is the tube's identity: it may take a second line before it is cut.
    fact("Kit " + l_.kit_number, "kit number", 2);
    // The doctor stands on the sheet too: here as far as there is room.
    const double line = c_.height_of(-1, "0", fact_style);
    const int room = static_cast<int>((floor - y_ + leading) / line);
    if (room > 0) fact(l_.doctor, "doctor", std::min(room, 2));
    draw_when(c_, l_, x_, bottom_, width_);
  }

private:
  void number() {
    constexpr type_style figure{38, true, align::right};
    constexpr double line_top = 9; // a figure's line is taller than the figure
    constexpr double under_figure = 32;
    const double at = x_ + width_ - number_width;
    const tag p(c_, "P");
    const std::string text = fmt::format("{}", l_.number.value());
    c_.text(at, y_ - line_top, number_width, {text, what_}, figure);
    c_.text(at, y_ + under_figure, number_width, {l_.offset, what_}, {8.5, false, align::right});
  }

  void fact(const std::string& text, const char* field, int lines) {
    if (text.empty()) return;
    const tag p(c_, "P");
    type_style style = fact_style;
    style.most_lines = lines;
    y_ += c_.text(x_, y_, width_ - number_width - mm(1), {text, what_ + " " + field}, style);
  }

  canvas& c_;
  const label_text& l_;
  std::string what_;
  double x_;
  double y_;
  double bottom_;
  double width_;
};

} // namespace

void draw_labels(canvas& c, const std::vector<label_text>& labels, const label_grid& grid) {
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const std::size_t place = i % grid.on_a_page();
    if (i > 0 && place == 0) c.next_page();
    const auto column = static_cast<double>(place % grid.columns);
    const auto row = static_cast<double>(place / grid.columns);
    const double x = mm(grid.left + column * grid.pitch_x);
    const double y = mm(grid.top + row * grid.pitch_y);
    corners(c, x, y, mm(grid.width), mm(grid.height));
    label_writer(c, labels[i], x, y, grid).draw();
  }
}

} // namespace qb::page
