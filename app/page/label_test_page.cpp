// Corners, rules, and few words between them.
#include "app/page/label_test_page.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double hair = 0.3;
constexpr double rule_line = 0.5;
constexpr double corner = mm(4);
constexpr double tick = mm(2);
constexpr int ten_mm = 100;
constexpr int least_page = 1500; // tenths of a millimetre: below it words and rules are small

class test_page {
public:
  test_page(canvas& c, const label_sheet& s, const label_print& p) : c_(c), s_(s), p_(p) {}

  void draw() {
    for (std::size_t i = 0; i < s_.on_a_page(); ++i)
      outline(i);
    if (s_.page.width >= least_page && s_.page.height >= least_page)
      large();
    else
      small();
  }

private:
  // The corners alone: between them is room for words.
  void outline(std::size_t i) {
    const label_place at = place_of(s_, {1, p_.offset_x, p_.offset_y}, i);
    const double x = tenths(at.left);
    const double y = tenths(at.top);
    const double right = x + tenths(s_.label.width);
    const double bottom = y + tenths(s_.label.height);
    for (const bool far_x : {false, true}) {
      for (const bool far_y : {false, true}) {
        const double cx = far_x ? right : x;
        const double cy = far_y ? bottom : y;
        c_.line(cx, cy, cx + (far_x ? -corner : corner), cy, hair);
        c_.line(cx, cy, cx, cy + (far_y ? -corner : corner), hair);
      }
    }
    if (s_.roll) return;
    const tag p(c_, "P");
    constexpr type_style number{9, true, align::left, true};
    c_.text(x + mm(2), y + mm(1), mm(10), {fmt::format("{}", i + 1), "place"}, number);
  }

  [[nodiscard]] double rule() const { return tenths(rule_length(s_)); }
  [[nodiscard]] std::string rule_words() const {
    return fmt::format("{} mm", rule_length(s_) / 10);
  }

  // A rule with a tick every 10 mm, the ends longer.
  void across(double x, double y) {
    c_.line(x, y, x + rule(), y, rule_line);
    for (int at = 0; at <= rule_length(s_); at += ten_mm) {
      const double high = at % rule_length(s_) == 0 ? tick : tick / 2;
      c_.line(x + tenths(at), y - high, x + tenths(at), y + high, rule_line);
    }
  }

  void down(double x, double y) {
    c_.line(x, y, x, y + rule(), rule_line);
    for (int at = 0; at <= rule_length(s_); at += ten_mm) {
      const double wide = at % rule_length(s_) == 0 ? tick : tick / 2;
      c_.line(x - wide, y + tenths(at), x + wide, y + tenths(at), rule_line);
    }
  }

  // Words in the middle of the page, in the gaps between the corners of the rows of labels.
  void large() {
    const double wide = tenths(s_.page.width);
    const double left = (wide - rule()) / 2;
    double y = band(1);
    y = words(left, y, "Test page for labels", {15, true}, "H1");
    words(left, y, s_.name, {10}, "P");
    y = band(2);
    words(left, y, "This line must be " + rule_words() + " long:", {10, true}, "P");
    across(left, y + mm(8));
    y = band(3);
    words(left, y,
          "If it is not, print at 100 % (\"actual size\"), not \"fit to page\". Measure the line "
          "that runs down, too.",
          {10}, "P");
    y = band(4);
    words(left, y, shift_words(), {10}, "P");
    y = band(5);
    words(left, y, place_words(), {10}, "P");
    down(wide - mm(22), (tenths(s_.page.height) - rule()) / 2);
  }

  void small() {
    const double wide = tenths(s_.page.width);
    const double left = (wide - rule()) / 2;
    double y = tenths(s_.page.height) * 0.14;
    y = words(left, y, s_.name, {6.5, true}, "H1");
    y = words(left, y, "This line must be " + rule_words() + " long:", {6.5}, "P") + mm(2.5);
    across(left, y);
    words(left, y + mm(2.5), "Else print at 100 %. " + shift_words(), {6.5}, "P");
  }

  // The middle of a row of labels, a little above, so that two lines lie in its gap.
  [[nodiscard]] double band(std::size_t row) const {
    const std::size_t rows = std::max<std::size_t>(s_.rows, 1);
    constexpr std::size_t bands = 6;
    const auto of = static_cast<int>(row * rows / bands);
    const int pitch = s_.pitch_y;
    return tenths(s_.top + of * pitch + s_.label.height / 2) - mm(6.5);
  }

  [[nodiscard]] std::string shift_words() const {
    return fmt::format("Moved by {:.1f} mm to the right, {:.1f} mm down.", p_.offset_x / 10.0,
                       p_.offset_y / 10.0);
  }

  [[nodiscard]] static std::string place_words() {
    return "Hold this page with a sheet of labels against the light: corners must lie on corners.";
  }

  double words(double x, double y, const std::string& text, const type_style& style,
               const char* what) {
    const tag t(c_, what);
    return y + c_.text(x, y, rule(), {text, "test page"}, style);
  }

  canvas& c_;
  const label_sheet& s_;
  const label_print& p_;
};

} // namespace

int rule_length(const label_sheet& sheet) {
  constexpr int wanted = 1000;
  constexpr int edges = 60;
  const int room = std::min(wanted, sheet.page.width - edges);
  return std::max(ten_mm, room / ten_mm * ten_mm);
}

void draw_label_test(canvas& c, const label_sheet& sheet, const label_print& print) {
  test_page(c, sheet, print).draw();
}

} // namespace qb::page
