// Labels: the name top left, the tube's number as large as the label allows, the code, a line for
// what only the moment can tell.
#include "app/page/data_matrix.hpp"
#include "app/page/label_layout.hpp"
#include "app/page/pages.hpp"
#include "core/sheet/labels.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double cross = mm(1.5);
constexpr double hair = 0.3;
constexpr double gap = 4;
// Modules of 0.5 mm are whole dots of printers of 203 and of 300 dots an inch; small labels have
// the least that is read around a tube.
constexpr double roomy_module = mm(0.5);
constexpr double small_module = mm(least_matrix_module_mm);
constexpr int roomy_label = 250; // tenths of a millimetre high

// A small cross at each corner shows where to cut.
void corners(canvas& c, double x, double y, double w, double h) {
  for (const double at_x : {x, x + w}) {
    for (const double at_y : {y, y + h}) {
      c.line(at_x - cross, at_y, at_x + cross, at_y, hair);
      c.line(at_x, at_y - cross, at_x, at_y + cross, hair);
    }
  }
}

// The room inside a label's margins, in points.
struct room {
  double x{0};
  double y{0};
  double width{0};
  double height{0};
};

// One label while it is drawn, from its top down.
class label_writer {
public:
  label_writer(canvas& c, const label_text& l, const room& r, double module,
               const label_sizes& most)
      : c_(c), l_(l), r_(r), what_(fmt::format("label {}", l.number.value())), y_(r.y) {
    const std::string text = tube_code_text(l);
    if (!text.empty()) {
      // A kit number so long that no symbol holds it stands there in letters alone.
      if (auto made = data_matrix(text)) code_ = std::move(*made);
    }
    fit_ = lay_out(c, l, r.width, r.height, code_, module, most);
  }

  [[nodiscard]] label_sizes sizes() const { return {fit_.em, fit_.number_em}; }

  std::vector<std::string> draw() {
    const tag section(c_, "Sect");
    line(fit_.title, l_.name.empty() ? "kit number" : "name", fit_.name);
    middle();
    const type_style strong{fit_.em, true};
    const type_style plain{fit_.em};
    if (fit_.kit_apart) line("Kit " + l_.kit_number, "kit number", strong);
    if (l_.rehearsal) line(practice_mark, "mark", strong);
    if (!l_.birth_short.empty()) line("Born " + l_.birth_short, "birth date", plain);
    if (fit_.doctor) {
      type_style style = plain;
      style.most_lines = fit_.doctor_lines;
      line(l_.doctor, "doctor", style);
    }
    when();
    std::vector<std::string> out;
    for (const std::string& field : fit_.shortened)
      out.push_back(what_ + " " + field);
    return out;
  }

private:
  void line(const std::string& text, const char* field, const type_style& style) {
    if (text.empty()) return;
    const tag p(c_, "P");
    y_ += tight_text(c_, r_.x, y_, r_.width, {text, what_ + " " + field}, style);
  }

  // Number, offset over kit, code: beside each other, each in the middle of the row.
  void middle() {
    const double em = fit_.em;
    const double centre = y_ + fit_.middle_high / 2;
    {
      const tag p(c_, "P");
      const type_style figure{fit_.number_em, true};
      // A figure stands in the upper middle of its line.
      const double top = centre - c_.height_of(-1, "0", figure) * 0.522;
      c_.text(r_.x, top, fit_.number_wide, {fmt::format("{}", l_.number.value()), what_}, figure);
    }
    const double x = r_.x + fit_.number_wide;
    const double wide = r_.width - fit_.number_wide - fit_.code_side - gap;
    const bool kit_here = !l_.name.empty() && !l_.kit_number.empty() && !fit_.kit_apart;
    const type_style strong{em, true};
    const double one = tight_height(c_, wide, "0", strong);
    double y = centre - one * (kit_here ? 1 : 0.5);
    {
      const tag p(c_, "P");
      y += tight_text(c_, x, y, wide, {l_.offset, what_}, {em});
    }
    if (kit_here) {
      const tag p(c_, "P");
      tight_text(c_, x, y, wide, {"Kit " + l_.kit_number, what_ + " kit number"}, strong);
    }
    if (code_ && fit_.module > 0) draw_code(centre);
    y_ += fit_.middle_high;
  }

  void draw_code(double centre) {
    const tag figure(c_, "Figure");
    const double m = fit_.module;
    const double quiet = m * static_cast<double>(matrix_quiet_modules);
    const double left = r_.x + r_.width - fit_.code_side + quiet;
    const double top = centre - fit_.code_side / 2 + quiet;
    std::vector<solid_box> boxes;
    for (const code::dark_run& run : code::dark_runs(*code_))
      boxes.push_back({left + m * static_cast<double>(run.x), top + m * static_cast<double>(run.y),
                       m * static_cast<double>(run.length), m});
    c_.solid(boxes);
  }

  // The em of "Date" and "Closed".
  [[nodiscard]] double caption() const {
    constexpr double most = 8.5;
    return std::clamp(fit_.em * 0.9, least_label_em, most);
  }

  // Date and time at the foot: printed once known, else lines to write on.
  void when() {
    const tag p(c_, "P");
    if (l_.time.empty()) {
      constexpr double time_from = 0.56; // of the width; a date is the longer of the two
      pen_line("Date", r_.x, r_.x + r_.width * time_from - gap);
      pen_line("Time", r_.x + r_.width * time_from, r_.x + r_.width);
    } else {
      known_time();
    }
  }

  void pen_line(const char* label, double from, double until) {
    const double bottom = r_.y + r_.height;
    const type_style name{caption(), false, align::left, true};
    const double wide = c_.width_of(label, name) + 3;
    c_.text(from, bottom - c_.height_of(-1, label, name) + name.size * 0.2, wide, {label, what_},
            name);
    c_.line(from + wide, bottom - 1, until, bottom - 1, hair * 2);
  }

  // "Closed 6 Apr 2027 07:46 (pressed)", as large as it fits.
  void known_time() {
    const std::string time = l_.date_short + " " + l_.time;
    const type_style small{caption()};
    // By the longest of them, so that all labels of a sheet look alike.
    const double how_wide = c_.width_of(words_of(how_known::estimated), small) + 1;
    double closed_wide = c_.width_of("Closed", small) + gap;
    type_style strong{fit_.em * 1.3, true};
    while (strong.size > fit_.em &&
           closed_wide + c_.width_of(time, strong) + how_wide + gap / 2 > r_.width)
      strong.size -= 0.25;
    if (closed_wide + c_.width_of(time, strong) + how_wide + gap / 2 > r_.width) closed_wide = 0;
    constexpr double ascent = 1.069; // of an em, to the line the letters stand on
    const double base = r_.y + r_.height - strong.size * 0.25;
    const auto put = [&](double x, double wide, const std::string& text, const type_style& style) {
      c_.text(x, base - ascent * style.size, wide, {text, what_ + " time"}, style);
    };
    if (closed_wide > 0) put(r_.x, closed_wide, "Closed", small);
    const double time_wide = c_.width_of(time, strong) + gap / 2;
    put(r_.x + closed_wide, time_wide, time, strong);
    put(r_.x + closed_wide + time_wide, how_wide, l_.how, small);
  }

  canvas& c_;
  const label_text& l_;
  room r_;
  std::string what_;
  double y_;
  std::optional<code::symbol> code_;
  label_layout fit_;
};

// The sizes in which the fullest of the labels fits.
label_sizes common_sizes(canvas& c, const std::vector<label_text>& labels, const room& r,
                         double module) {
  label_sizes out;
  for (const label_text& l : labels) {
    const label_sizes own = label_writer(c, l, r, module, out).sizes();
    out.em = std::min(out.em, own.em);
    out.number_em = std::min(out.number_em, own.number_em);
  }
  return out;
}

} // namespace

std::vector<std::string> draw_labels(canvas& c, const std::vector<label_text>& labels,
                                     const label_sheet& sheet, const label_print& print,
                                     cut_marks marks) {
  std::vector<std::string> shortened;
  std::size_t page = 0;
  const double wide = tenths(sheet.label.width);
  const double high = tenths(sheet.label.height);
  const double module = sheet.label.height >= roomy_label ? roomy_module : small_module;
  room inner{0, 0, wide - 2 * tenths(sheet.margin_x), high - 2 * tenths(sheet.margin_y)};
  const label_sizes sizes = common_sizes(c, labels, inner, module);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const label_place place = place_of(sheet, print, i);
    if (place.page != page) c.next_page();
    page = place.page;
    const double x = tenths(place.left);
    const double y = tenths(place.top);
    if (marks == cut_marks::yes) corners(c, x, y, wide, high);
    inner.x = x + tenths(sheet.margin_x);
    inner.y = y + tenths(sheet.margin_y);
    for (std::string& one : label_writer(c, labels[i], inner, module, sizes).draw())
      shortened.push_back(std::move(one));
  }
  return shortened;
}

} // namespace qb::page
