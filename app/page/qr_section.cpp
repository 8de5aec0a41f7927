// Codes in rows, and their words.
#include "app/page/qr_section.hpp"

#include "app/page/qr_symbol.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double side = mm(code_side_mm);
constexpr double gap = mm(2);

constexpr type_style head_style{11, true};
constexpr type_style words_style{8};

// What the codes hold, since a picture in the file cannot say it.
std::string held_words(std::size_t codes, const sheet_text& sheet) {
  const auto filled = std::count_if(sheet.rows.begin(), sheet.rows.end(),
                                    [](const sheet_row& r) { return !r.closed.empty(); });
  const std::string kit = sheet.first.empty() ? "" : sheet.first.front().value;
  return fmt::format("{} kit {}, the times of {} of {} tubes, scores, drink, what was noted. No "
                     "name, no answers. {}",
                     codes == 1 ? "Holds" : "Hold", kit, filled, sheet.rows.size(),
                     codes == 1 ? "Read with a hand scanner."
                                : "Read all of them with a hand scanner, in any order.");
}

double draw_words(canvas& c, double x, double y, double width, std::size_t codes,
                  const sheet_text& sheet) {
  const tag p(c, "P");
  return c.text(x, y, width, {held_words(codes, sheet), "code"}, words_style);
}

double draw_head(canvas& c, double x, double y, double width) {
  const tag h(c, "H2");
  return c.text(x, y, width, {"The result by code", "code"}, head_style);
}

} // namespace

void draw_code(canvas& c, double x, double y, double width, const code::symbol& s) {
  const double module = width / static_cast<double>(s.side + 2 * code::quiet_modules);
  const double quiet = module * static_cast<double>(code::quiet_modules);
  std::vector<solid_box> boxes;
  for (const code::dark_run& run : code::dark_runs(s))
    boxes.push_back({x + quiet + module * static_cast<double>(run.x),
                     y + quiet + module * static_cast<double>(run.y),
                     module * static_cast<double>(run.length), module});
  const tag figure(c, "Figure");
  c.solid(boxes);
}

result<std::vector<code::symbol>> paper_codes(const std::vector<std::string>& texts) {
  std::vector<code::symbol> out;
  for (const std::string& text : texts) {
    auto one = qr_for_paper(text, code_side_mm, least_module_mm);
    if (!one) return tl::unexpected(one.error());
    out.push_back(std::move(*one));
  }
  return out;
}

void draw_code_column(canvas& c, const code_corner& at, const code::symbol& code,
                      const sheet_text& sheet) {
  const double x = at.right - side;
  double y = at.top + draw_head(c, x, at.top, side);
  draw_code(c, x, y, side, code);
  y += side;
  draw_words(c, x, y, side, 1, sheet);
}

void draw_code_row(canvas& c, const code_corner& at, double left,
                   const std::vector<code::symbol>& codes, std::size_t first,
                   const sheet_text& sheet) {
  const std::size_t here = std::min(codes_in_a_row, codes.size() - first);
  const double from = at.right - static_cast<double>(here) * (side + gap);
  if (first == 0) {
    const double words_wide = from - left;
    const double down = at.top + draw_head(c, left, at.top, words_wide) + 2;
    draw_words(c, left, down, words_wide, codes.size(), sheet);
  }
  for (std::size_t i = 0; i < here; ++i) {
    const double x = from + static_cast<double>(i) * (side + gap) + gap;
    draw_code(c, x, at.top, side, codes[first + i]);
    const tag p(c, "P");
    c.text(x, at.top + side, side,
           {fmt::format("code {} of {}", first + i + 1, codes.size()), "code"},
           {8, false, align::centre});
  }
}

} // namespace qb::page
