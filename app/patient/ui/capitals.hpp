// Capitals for the on-screen keyboard, which may ask no locale.
#pragma once

#include <string>
#include <string_view>

namespace qb::inline ui {

// The capital of a Latin, Greek or Cyrillic small letter; any other character unchanged.
[[nodiscard]] char32_t capital(char32_t c);
[[nodiscard]] std::string capitals(std::string_view text);

} // namespace qb::inline ui
