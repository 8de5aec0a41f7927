// Ranges of Unicode's control and format characters, and of what is drawn as nothing.
#include "core/base/visible.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <iterator>

namespace qb {

namespace {

struct range {
  char32_t first;
  char32_t last;
};

// General categories Cc, Cf, Zl and Zp of the Unicode Character Database, and its property
// Default_Ignorable_Code_Point but for the selectors of a letter's form, which stand behind what
// they belong to. Line ends, tabs and joiners are spoken of apart.
constexpr range unseen[] = {
    {0x00, 0x08},       {0x0B, 0x1F},       {0x7F, 0x9F},       {0xAD, 0xAD},
    {0x34F, 0x34F},     {0x600, 0x605},     {0x61C, 0x61C},     {0x6DD, 0x6DD},
    {0x70F, 0x70F},     {0x890, 0x891},     {0x8E2, 0x8E2},     {0x115F, 0x1160},
    {0x17B4, 0x17B5},   {0x180B, 0x180F},   {0x200B, 0x200B},   {0x200E, 0x200F},
    {0x2028, 0x202E},   {0x2060, 0x206F},   {0x3164, 0x3164},   {0xFEFF, 0xFEFF},
    {0xFFA0, 0xFFA0},   {0xFFF0, 0xFFFB},   {0x110BD, 0x110BD}, {0x110CD, 0x110CD},
    {0x13430, 0x1343F}, {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF}};
constexpr char32_t non_joiner = 0x200C;
constexpr char32_t joiner = 0x200D;
constexpr char32_t first_that_joins = 0x600; // Arabic; nothing before it is joined or kept apart

bool is_unseen(char32_t c) {
  return std::any_of(std::begin(unseen), std::end(unseen),
                     [c](const range& r) { return c >= r.first && c <= r.last; });
}

void append_number(std::string& out, char32_t c) {
  constexpr char32_t first_of_pairs = 0x10000;
  constexpr char32_t high = 0xD800;
  constexpr char32_t low = 0xDC00;
  constexpr unsigned low_bits = 10;
  constexpr char32_t low_mask = 0x3FF;
  const auto one = [&out](char32_t half) {
    out += fmt::format("\\u{:04x}", static_cast<unsigned>(half));
  };
  if (c < first_of_pairs) return one(c);
  one(high + ((c - first_of_pairs) >> low_bits));
  one(low + ((c - first_of_pairs) & low_mask));
}

std::string shown(std::string_view text, bool lines) {
  std::string out;
  char32_t before = 0;
  for (std::size_t to = 0; to < text.size();) {
    const std::size_t from = to;
    const char32_t c = next_character(text, to);
    const bool broken = c == no_character && to == from + 1; // a file's name may be any bytes
    std::size_t ahead = to;
    const char32_t after = to < text.size() ? next_character(text, ahead) : 0;
    const bool joins = c == joiner || c == non_joiner;
    const bool between = before >= first_that_joins && after >= first_that_joins;
    if (broken) {
      out += fmt::format("\\x{:02x}", static_cast<unsigned char>(text[from]));
    } else if (is_unseen(c) || (joins && !between) || (!lines && (c == U'\n' || c == U'\t'))) {
      append_number(out, c);
    } else {
      out += text.substr(from, to - from);
    }
    before = c;
  }
  return out;
}

} // namespace

std::string visible(std::string_view text) {
  return shown(text, true);
}

std::string visible_line(std::string_view text) {
  return shown(text, false);
}

} // namespace qb
