// Simple capitals by range.
// Only letters that the fonts and the drawn keyboard hold are treated; the rest stays as it is.
#include "app/patient/ui/capitals.hpp"

#include "core/base/text.hpp"

namespace qb::inline ui {

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

} // namespace qb::inline ui
