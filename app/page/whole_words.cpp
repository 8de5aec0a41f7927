// One row a code: the code at the left, what it holds beside it.
#include "app/page/whole_words.hpp"

#include "app/page/qr_section.hpp"
#include "app/page/qr_symbol.hpp"
#include "core/base/text.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::page {

namespace {

constexpr double module = mm(least_module_mm);
constexpr double gap = mm(3);
constexpr std::size_t most_bytes = 200; // of one code: no wider than the result's own
constexpr std::size_t most_codes = 24;  // of one paper; the log has the rest
constexpr type_style head_style{11, true};
constexpr type_style plain{9};
constexpr type_style one_line{9, false, align::left, false, 1}; // it stands above in full
constexpr type_style quiet{8, false, align::left, true};

// A code, and which part of which words it holds.
struct part {
  words whole;
  std::size_t number{1};
  std::size_t of{1};
  code::symbol code;
};

// Cut between letters, so that each code is a text by itself.
std::vector<std::string> cut(const std::string& text) {
  std::vector<std::string> out(1);
  for (const std::string& letter : characters(text)) {
    if (out.back().size() + letter.size() > most_bytes) out.emplace_back();
    out.back() += letter;
  }
  return out;
}

// The short ones first: names before comments.
std::vector<part> parts_of(std::vector<words> all) {
  std::stable_sort(all.begin(), all.end(),
                   [](const words& a, const words& b) { return a.text.size() < b.text.size(); });
  std::vector<part> out;
  for (const words& one : all) {
    const std::vector<std::string> pieces = cut(one.text);
    for (std::size_t i = 0; i < pieces.size(); ++i)
      if (auto made = qr_of_words(pieces[i]))
        out.push_back({one, i + 1, pieces.size(), std::move(*made)});
  }
  return out;
}

double side_of(const code::symbol& s) {
  return module * static_cast<double>(s.side + 2 * code::quiet_modules);
}

std::string held(const part& p, const std::string& kit) {
  std::string out = kit.empty() ? p.whole.what : fmt::format("Kit {}, {}", kit, p.whole.what);
  return p.of == 1 ? out : out + fmt::format(", code {} of {}", p.number, p.of);
}

} // namespace

double draw_whole_words(canvas& c, const words_column& in, const std::string& kit, double y,
                        const std::function<double()>& turn) {
  // Taken before the first row is set, which prints a part of them once more.
  std::vector<part> parts = parts_of(c.stood_in());
  if (parts.empty()) return y;
  const std::size_t more = parts.size() > most_codes ? parts.size() - most_codes : 0;
  parts.resize(parts.size() - more);
  const std::string about =
      "A square stands for each letter that no font here has. The codes hold the whole words: read "
      "them with a hand scanner or a telephone." +
      (more == 0 ? "" : fmt::format(" {} more codes do not stand here: the log has all.", more));
  y += gap;
  double high = c.height_of(in.width, about, plain) + c.height_of(-1, "A", head_style);
  if (y + high + side_of(parts.front().code) > in.bottom) y = turn();
  {
    const tag h(c, "H2");
    y += c.text(in.left, y, in.width, {"Words in full, by code", "heading"}, head_style);
  }
  {
    const tag p(c, "P");
    y += c.text(in.left, y, in.width, {about, "about"}, plain);
  }
  for (const part& one : parts) {
    const double side = side_of(one.code);
    const double right = in.width - side - gap;
    const double name_high = c.height_of(right, held(one, kit), quiet);
    high = std::max(side, name_high + c.height_of(right, one.whole.text, one_line));
    if (y + high > in.bottom) y = turn();
    draw_code(c, in.left, y, side, one.code);
    const tag p(c, "P");
    c.text(in.left + side + gap, y + mm(2), right, {held(one, kit), "code"}, quiet);
    c.text(in.left + side + gap, y + mm(2) + name_high, right, one.whole, one_line);
    y += high;
  }
  return y;
}

} // namespace qb::page
