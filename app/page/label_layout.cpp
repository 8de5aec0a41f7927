// Trying sizes from the largest down.
#include "app/page/label_layout.hpp"

#include "app/page/data_matrix.hpp"
#include "app/page/pages.hpp"

#include <algorithm>
#include <array>

namespace qb::page {

namespace {

constexpr double step = 0.25;
constexpr double line_share = 0.88; // of the font's own distance between lines
constexpr double slack = 0.08;      // of an em, above and below a line, that nothing needs
constexpr double ascent = 0.99;     // of an em, from a tight line's top to where its letters stand
constexpr double line_high = 1.2;   // of an em
constexpr double pen_high = mm(4);  // a line that can be written on
constexpr double columns_gap = 4;

// How many times as large as the facts the number is tried, largest first.
constexpr std::array<double, 3> number_times{4, 3.5, least_number_times};

// What may be given up, in this order, when even the smallest letters do not fit.
enum class given_up { nothing, end_of_doctor, doctor, code, end_of_name };

std::string toolkit_words(const label_text& l) {
  return l.kit_number.empty() ? "" : "Kit " + l.kit_number;
}

// One try with one size.
class attempt {
public:
  attempt(canvas& c, const label_text& l, double width, const std::optional<code::symbol>& code,
          double module, double em, double times, given_up g)
      : c_(c), l_(l), width_(width), g_(g) {
    out_.em = em;
    out_.number_em = em * times;
    out_.title = l.name.empty() ? toolkit_words(l) : l.name;
    if (code && g < given_up::code) {
      out_.module = module;
      out_.code_side = module * static_cast<double>(code->side + 2 * matrix_quiet_modules);
    } else if (code) {
      out_.shortened.emplace_back("code");
    }
  }

  // The layout, or nothing where it is too high or a text takes too many lines.
  std::optional<label_layout> in(double height) {
    double high = name();
    high += middle();
    const double em = out_.em;
    if (out_.kit_apart) high += tight_height(c_, width_, toolkit_words(l_), {em, true});
    if (l_.rehearsal) high += tight_height(c_, width_, practice_mark, {em, true});
    if (!l_.birth_short.empty()) high += tight_height(c_, width_, "Born", {em});
    high += doctor();
    out_.when_high = std::max(pen_high, em * 1.8);
    high += out_.when_high;
    if (!fits_ || high > height) return std::nullopt;
    return out_;
  }

private:
  double name() {
    const double em = out_.em;
    out_.name = {em, true};
    if (out_.title.empty()) return 0;
    for (const double size : {em * 1.25, em * 1.12, em}) {
      out_.name.size = size;
      if (c_.width_of(out_.title, out_.name) <= width_)
        return tight_height(c_, width_, out_.title, out_.name);
    }
    const bool too_long = c_.lines_of(width_, out_.title, out_.name) > most_name_lines;
    if (too_long && g_ < given_up::end_of_name) fits_ = false;
    if (too_long) {
      out_.name.most_lines = most_name_lines;
      out_.shortened.emplace_back("name");
    }
    return tight_height(c_, width_, out_.title, out_.name);
  }

  double middle() {
    const double em = out_.em;
    const type_style figure{out_.number_em, true};
    constexpr double cap = 0.82; // of an em: a figure's height and a hair of air
    out_.number_wide = c_.width_of("00", figure) + columns_gap;
    const double room = width_ - out_.number_wide - out_.code_side - columns_gap;
    const type_style beside{em, true};
    const bool kit_here = !l_.name.empty() && !l_.kit_number.empty();
    if (c_.width_of(l_.offset, beside) > room) fits_ = false;
    out_.kit_apart = kit_here && c_.width_of(toolkit_words(l_), beside) > room;
    out_.middle_high =
        std::max({figure.size * cap, out_.code_side, 2 * tight_height(c_, room, "0", beside)});
    return out_.middle_high;
  }

  double doctor() {
    if (l_.doctor.empty()) return 0;
    // On practice, which is on no real tube, the mark goes before the doctor.
    if (g_ >= given_up::doctor || (l_.rehearsal && g_ >= given_up::end_of_doctor)) {
      out_.doctor = false;
      if (!l_.rehearsal) out_.shortened.emplace_back("doctor");
      return 0;
    }
    type_style style{out_.em};
    const int lines = c_.lines_of(width_, l_.doctor, style);
    if (lines > most_name_lines && g_ == given_up::nothing) fits_ = false;
    if (g_ == given_up::end_of_doctor && lines > 1) {
      style.most_lines = out_.doctor_lines = 1;
      out_.shortened.emplace_back("doctor");
    }
    return tight_height(c_, width_, l_.doctor, style);
  }

  canvas& c_;
  const label_text& l_;
  double width_;
  given_up g_;
  bool fits_{true};
  label_layout out_;
};

} // namespace

double tight_text(canvas& c, double x, double y, double width, const words& w, type_style style) {
  style.spacing = line_share;
  const double high = tight_height(c, width, w.text, style);
  c.text(x, y + ascent * style.size - c.baseline_of(width, w.text, style), width, w, style);
  return high;
}

// A single line is as high in every script, though some faces ask for more.
double tight_height(canvas& c, double width, const std::string& text, type_style style) {
  style.spacing = line_share;
  if (c.lines_of(width, text, style) == 1 || style.most_lines == 1) return line_high * style.size;
  return c.height_of(width, text, style) - 2 * slack * style.size;
}

label_layout lay_out(canvas& c, const label_text& l, double width, double height,
                     const std::optional<code::symbol>& code, double module,
                     const label_sizes& most) {
  const auto tried = [&](double em, given_up g, double times = least_number_times) {
    return attempt(c, l, width, code, module, em, times, g).in(height);
  };
  for (double em = most.em; em >= least_label_em; em -= step) {
    for (const double times : number_times) {
      if (em * times > most.number_em) continue;
      if (auto fits = tried(em, given_up::nothing, times)) return *fits;
    }
  }
  for (const given_up g : {given_up::end_of_doctor, given_up::doctor, given_up::code})
    if (auto fits = tried(least_label_em, g)) return *fits;
  // Number, kit number and time stand on it whatever the rest does.
  constexpr double any_height = a4_height;
  return attempt(c, l, width, code, module, least_label_em, least_number_times,
                 given_up::end_of_name)
      .in(any_height)
      .value_or(label_layout{});
}

} // namespace qb::page
