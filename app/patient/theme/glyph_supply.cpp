// The blocks, and finding a character's.
#include "app/patient/theme/glyph_supply.hpp"

#include "core/base/text.hpp"

#include <optional>

namespace qb::inline looks {

namespace {

struct range {
  ImWchar from;
  ImWchar to;
};
using block = std::vector<range>;

// Running text: Latin with the punctuation of English; its accents and other marks; Latin extended;
// Greek; Cyrillic; the rest of Latin. U+FFFD stands for what has no letter.
const std::vector<block>& text_blocks() {
  static const std::vector<block> all{
      {{0x0020, 0x007E}, {0x00A0, 0x00A0}, {0x00B7, 0x00B7}, {0x2010, 0x2027}, {0xFFFD, 0xFFFD}},
      {{0x00A1, 0x00B6}, {0x00B8, 0x00FF}, {0x2030, 0x203A}, {0x20AC, 0x20AC}},
      {{0x0100, 0x024F}},
      {{0x0370, 0x03FF}},
      {{0x0400, 0x052F}},
      {{0x1E00, 0x1EFF}}};
  return all;
}

// The sizes of figures: what a countdown has; then Latin 1, for times and telephone numbers.
const std::vector<block>& figure_blocks() {
  static const std::vector<block> all{{{0x0020, 0x0020}, {0x0030, 0x003A}, {0x2013, 0x2013}},
                                      {{0x0021, 0x002F},
                                       {0x003B, 0x00FF},
                                       {0x2012, 0x2012},
                                       {0x2014, 0x2014},
                                       {0x2019, 0x2019},
                                       {0x2026, 0x2026}}};
  return all;
}

const std::vector<block>& blocks_of(face f) {
  return f >= face::figure ? figure_blocks() : text_blocks();
}

// Below it are controls, and letters that are in every block of the first kind.
constexpr char32_t first_pictured = 0xA0;

std::optional<std::size_t> block_with(face f, char32_t c) {
  const std::vector<block>& all = blocks_of(f);
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (const range& r : all[i]) {
      if (c >= r.from && c <= r.to) return i;
    }
  }
  return std::nullopt;
}

} // namespace

bool is_bold(face f) {
  return f != face::small && f != face::body;
}

void glyph_supply::set_letters(bool bold, std::vector<bool> letters) {
  letters_[bold ? 1 : 0] = std::move(letters);
}

bool glyph_supply::has_letter(face f, char32_t c) const {
  const std::vector<bool>& of_file = letters_[is_bold(f) ? 1 : 0];
  return c < of_file.size() && of_file[c] && block_with(f, c).has_value();
}

bool glyph_supply::is_pictured(face f, std::string_view text) const {
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_character(text, at);
    if (c >= first_pictured && !has_letter(f, c)) return true;
  }
  return false;
}

void glyph_supply::need(face f, std::string_view text) {
  supplied& face_now = faces_[static_cast<std::size_t>(f)];
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_character(text, at);
    // The commonest characters are in every text face's first block.
    if (f < face::figure && c >= 0x20 && c < 0x7F) continue;
    const auto block = block_with(f, c);
    if (!block || face_now.wanted.test(*block) || !has_letter(f, c)) continue;
    face_now.wanted.set(*block);
    lacking_ = true;
  }
}

const ImWchar* glyph_supply::ranges(face f) {
  supplied& face_now = faces_[static_cast<std::size_t>(f)];
  const std::vector<block>& all = blocks_of(f);
  face_now.ranges.clear();
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!face_now.wanted.test(i)) continue;
    for (const range& r : all[i]) {
      face_now.ranges.push_back(r.from);
      face_now.ranges.push_back(r.to);
    }
  }
  face_now.ranges.push_back(0);
  return face_now.ranges.data();
}

} // namespace qb::inline looks
