// Walking UTF-8 and simple capitals by range.
// Only letters that the fonts and the drawn keyboard hold are treated; the rest stays as it is.
#include "app/patient/kit/utf8.hpp"

namespace qb {

char32_t next_character(std::string_view text, std::size_t& at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  ++at;
  if (lead < 0x80) return lead;
  int more = 0;
  char32_t c = 0;
  if ((lead & 0xE0U) == 0xC0U) {
    more = 1;
    c = lead & 0x1FU;
  } else if ((lead & 0xF0U) == 0xE0U) {
    more = 2;
    c = lead & 0x0FU;
  } else if ((lead & 0xF8U) == 0xF0U) {
    more = 3;
    c = lead & 0x07U;
  } else {
    return 0xFFFD;
  }
  std::size_t end = at;
  for (int i = 0; i < more; ++i, ++end) {
    if (end >= text.size()) return 0xFFFD;
    const auto byte = static_cast<unsigned char>(text[end]);
    if ((byte & 0xC0U) != 0x80U) return 0xFFFD;
    c = (c << 6U) | (byte & 0x3FU);
  }
  at = end;
  return c;
}

void append_character(std::string& text, char32_t c) {
  const auto put = [&text](char32_t byte) { text += static_cast<char>(byte); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0U | (c >> 6U));
    put(0x80U | (c & 0x3FU));
  } else if (c < 0x10000) {
    put(0xE0U | (c >> 12U));
    put(0x80U | ((c >> 6U) & 0x3FU));
    put(0x80U | (c & 0x3FU));
  } else {
    put(0xF0U | (c >> 18U));
    put(0x80U | ((c >> 12U) & 0x3FU));
    put(0x80U | ((c >> 6U) & 0x3FU));
    put(0x80U | (c & 0x3FU));
  }
}

void erase_last_character(std::string& text) {
  while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0U) == 0x80U) {
    text.pop_back();
  }
  if (!text.empty()) text.pop_back();
}

std::size_t character_count(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count)
    (void)next_character(text, at);
  return count;
}

std::vector<std::string> characters(std::string_view text) {
  std::vector<std::string> all;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t from = at;
    (void)next_character(text, at);
    all.emplace_back(text.substr(from, at - from));
  }
  return all;
}

char32_t capital(char32_t c) {
  if (c >= U'a' && c <= U'z') return c - 32;
  if (c >= 0xE0 && c <= 0xFE && c != 0xF7) return c - 32;
  if (c == 0xFF) return 0x178;
  if (c == 0x131) return U'I';
  if ((c >= 0x100 && c <= 0x137) || (c >= 0x14A && c <= 0x177)) return c % 2 == 1 ? c - 1 : c;
  if ((c >= 0x139 && c <= 0x148) || (c >= 0x179 && c <= 0x17E)) return c % 2 == 0 ? c - 1 : c;
  if (c == 0x219 || c == 0x21B) return c - 1;
  if (c == 0x3C2) return 0x3A3;
  if (c >= 0x3B1 && c <= 0x3C9) return c - 32;
  if (c >= 0x430 && c <= 0x44F) return c - 32;
  if (c >= 0x450 && c <= 0x45F) return c - 80;
  return c;
}

std::string capitals(std::string_view text) {
  std::string upper;
  for (std::size_t at = 0; at < text.size();)
    append_character(upper, capital(next_character(text, at)));
  return upper;
}

} // namespace qb
