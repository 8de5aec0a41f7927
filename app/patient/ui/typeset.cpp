// Type: measuring, breaking into lines, setting on whole pixels.
// Dear ImGui's own wrapping knows neither no-break spaces nor even lines, so it is done here.
#include "app/patient/ui/pen.hpp"

#include "app/patient/theme/line_pictures.hpp"
#include "core/base/text.hpp"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace qb::inline ui {

namespace {

ImU32 raw(colour c) {
  return IM_COL32(c.r, c.g, c.b, 255);
}

float leading_of(const fonts& set, face f) {
  const float em = set.of(f).em;
  const bool large = f >= face::headline;
  return std::round(em * (large ? sizes::tight_leading : sizes::leading));
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// The pieces of one word that are no wider than the line.
void break_word(const pen& p, face f, const std::string& word, float width,
                std::vector<std::string>& out) {
  std::string piece;
  for (const std::string& c : characters(word)) {
    if (!piece.empty() && p.width(f, piece + c) > width) {
      out.push_back(piece);
      piece.clear();
    }
    piece += c;
  }
  out.push_back(piece);
}

// Where the word that begins at `from` ends: at a space or a line's end, but not between two
// digits, so that a telephone number stays on one line.
std::size_t end_of_word(std::string_view words, std::size_t from) {
  std::size_t end = words.find_first_of(" \n", from);
  while (end < words.size() && words[end] == ' ' && end > from && end + 1 < words.size() &&
         is_digit(words[end - 1]) && is_digit(words[end + 1]))
    end = words.find_first_of(" \n", end + 1);
  return std::min(end, words.size());
}

std::vector<std::string> greedy(const pen& p, face f, std::string_view words, float width) {
  std::vector<std::string> out;
  std::string line;
  std::size_t at = 0;
  while (at <= words.size()) {
    const std::size_t end = end_of_word(words, at);
    const std::string word{words.substr(at, end - at)};
    const std::string longer = line.empty() ? word : line + " " + word;
    if (p.width(f, longer) <= width) {
      line = longer;
    } else {
      if (!line.empty()) out.push_back(line);
      break_word(p, f, word, width, out);
      line = out.back();
      out.pop_back();
    }
    if (end < words.size() && words[end] == '\n') {
      out.push_back(line);
      line.clear();
    }
    at = end + 1;
  }
  out.push_back(line);
  return out;
}

} // namespace

float pen::width(face f, std::string_view words) const {
  if (words.empty()) return 0;
  if (const auto pictured = fonts_->pictured_width(f, words)) return *pictured;
  fonts_->need(f, words);
  const fonts::cut& cut = fonts_->of(f);
  const char* end = words.data() + words.size();
  return cut.font->CalcTextSizeA(cut.line * scale_, 1e9F, 0, words.data(), end).x / scale_;
}

float pen::widest_word(face f, std::string_view words) const {
  float widest = 0;
  for (std::size_t at = 0; at <= words.size();) {
    const std::size_t end = end_of_word(words, at);
    widest = std::max(widest, width(f, words.substr(at, end - at)));
    at = end + 1;
  }
  return widest;
}

lines pen::wrap(face f, std::string_view words, float width, bool balanced) const {
  lines set;
  set.leading = leading_of(*fonts_, f);
  const float longest = std::min(width, sizes::longest_line * fonts_->of(f).em * 0.53F);
  set.text = greedy(*this, f, words, longest);
  if (!balanced || set.text.size() < 2) return set;
  // Evening out must not break a word that a whole line would hold.
  float low = std::max(longest / 2, std::min(longest, widest_word(f, words)) - 1);
  float high = longest;
  while (high - low > 4) {
    const float middle = (low + high) / 2;
    const auto attempt = greedy(*this, f, words, middle);
    if (attempt.size() > set.text.size()) {
      low = middle;
    } else {
      high = middle;
      set.text = attempt;
    }
  }
  return set;
}

void pen::text(face f, point top_left, colour c, std::string_view words, float leading) const {
  if (words.empty()) return;
  const fonts::cut& cut = fonts_->of(f);
  const float lead = leading > 0 ? leading : leading_of(*fonts_, f);
  const float y = top_left.y + (lead - cut.line) / 2;
  const ImVec2 at{std::round(top_left.x * scale_), std::round(y * scale_)};
  if (fonts_->pictured_width(f, words)) {
    const pictured_line* p = fonts_->picture(f, words);
    if (p == nullptr) return; // the frame is drawn again once it is made
    const float top =
        std::round((y + cut.ascent) * scale_) - static_cast<float>(p->baseline); // on one line
    list_->AddImage(cut.font->ContainerAtlas->TexID, {at.x, top},
                    {at.x + static_cast<float>(p->width), top + static_cast<float>(p->height)},
                    {p->u0, p->v0}, {p->u1, p->v1}, raw(c));
    return;
  }
  fonts_->need(f, words);
  list_->AddText(cut.font, cut.line * scale_, at, raw(c), words.data(),
                 words.data() + words.size());
}

void pen::text_in(face f, box b, colour c, std::string_view words, align a) const {
  const float lead = leading_of(*fonts_, f);
  const float spare = b.w - width(f, words);
  const float x = b.x + (a == align::left ? 0 : a == align::right ? spare : spare / 2);
  text(f, {x, b.y + (b.h - lead) / 2}, c, words, lead);
}

void pen::set_lines(face f, box b, colour c, const lines& set, align a) const {
  float y = b.y;
  for (const std::string& line : set.text) {
    text_in(f, {b.x, y, b.w, set.leading}, c, line, a);
    y += set.leading;
  }
}

float pen::figures_width(face f, std::string_view digits) const {
  const float cell = width(f, "0");
  float total = 0;
  for (const std::string& c : characters(digits)) {
    total += c.size() == 1 && is_digit(c[0]) ? cell : width(f, c);
  }
  return total;
}

void pen::figures(face f, point centre, colour c, std::string_view digits) const {
  const float cell = width(f, "0");
  const fonts::cut& cut = fonts_->of(f);
  // Centred on the middle of the capitals (0.714 em high), not of the line.
  const float top = centre.y + 0.357F * cut.em - cut.ascent;
  const float lead = cut.line;
  float x = centre.x - figures_width(f, digits) / 2;
  for (const std::string& one : characters(digits)) {
    const bool digit = one.size() == 1 && is_digit(one[0]);
    const float w = digit ? cell : width(f, one);
    text(f, {x + (w - width(f, one)) / 2, top}, c, one, lead);
    x += w;
  }
}

} // namespace qb::inline ui
