// Folding, character by character.
#include "core/protocol/kit_number.hpp"

#include "core/base/text.hpp"
#include "core/protocol/kit_alphabet.hpp"
#include "core/protocol/kit_code.hpp"

#include <algorithm>
#include <iterator>

namespace qb::inline protocols {

namespace {

constexpr std::size_t most = 64;

bool is_blank(char32_t c) {
  constexpr char32_t first_of_widths = 0x2000; // en quad, and on to the hair space
  constexpr char32_t last_of_widths = 0x200A;
  constexpr char32_t others[] = {U' ', U'\t', 0xA0, 0x202F, 0x3000};
  return (c >= first_of_widths && c <= last_of_widths) ||
         std::find(std::begin(others), std::end(others), c) != std::end(others);
}

// Hyphens and dashes of all lengths, the minus sign, and their forms of full and small width.
bool is_dash(char32_t c) {
  constexpr char32_t first = 0x2010;
  constexpr char32_t last = 0x2015;
  constexpr char32_t others[] = {U'-', 0x2212, 0xFE58, 0xFE63, 0xFF0D};
  return (c >= first && c <= last) ||
         std::find(std::begin(others), std::end(others), c) != std::end(others);
}

// A letter or digit of ASCII as a capital; nothing of another character.
std::optional<char> letter_of(char32_t c) {
  constexpr char32_t full_first = 0xFF01; // the forms of full width follow the order of ASCII
  constexpr char32_t full_last = 0xFF5E;
  if (c >= full_first && c <= full_last) c = c - full_first + U'!';
  if (c >= U'a' && c <= U'z') c = c - U'a' + U'A';
  const bool fits = (c >= U'A' && c <= U'Z') || (c >= U'0' && c <= U'9');
  return fits ? std::optional(static_cast<char>(c)) : std::nullopt;
}

// "FV-ACDE": the number that a kit code gives, which may have no digit.
bool is_coded_number(std::string_view text) {
  constexpr std::size_t laboratory = 2; // characters before the hyphen
  if (text.size() != laboratory + 1 + kit_serial_length || text[laboratory] != '-') return false;
  return std::all_of(text.begin(), text.end(), [&](const char& c) {
    return &c == &text[laboratory] || kit_alphabet.find(c) != kit_alphabet.npos;
  });
}

} // namespace

std::optional<std::string> read_kit_number(std::string_view text) {
  std::string out;
  bool digit = false;
  bool blank = false; // blanks, or a dash, stand before the next character
  bool dash = false;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_character(text, at);
    if (is_dash(c) || is_blank(c)) {
      (is_dash(c) ? dash : blank) = true;
      continue;
    }
    const auto letter = letter_of(c);
    if (!letter || (dash && out.empty())) return std::nullopt;
    if (!out.empty() && (dash || blank)) out += '-';
    dash = blank = false;
    out += *letter;
    digit = digit || (*letter >= '0' && *letter <= '9');
  }
  if (dash || (!digit && !is_coded_number(out))) return std::nullopt;
  return out.size() <= most ? std::optional(out) : std::nullopt;
}

std::string kit_key(const std::string& text) {
  return read_kit_number(text).value_or(text);
}

} // namespace qb::inline protocols
