// Characters of UTF-8 text: walking, erasing the last one, capitals.
// The on-screen keyboard and the line breaker both need them, and no locale may be asked.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace qb {

// The character that starts at byte `at`, which moves past it. A broken sequence gives U+FFFD and
// moves one byte. `at` must be inside the text.
[[nodiscard]] char32_t next_character(std::string_view text, std::size_t& at);

void append_character(std::string& text, char32_t c);

// Takes the last whole character off; nothing when empty.
void erase_last_character(std::string& text);

[[nodiscard]] std::size_t character_count(std::string_view text);

// The text cut into its characters, each as UTF-8.
[[nodiscard]] std::vector<std::string> characters(std::string_view text);

// The capital of a Latin, Greek or Cyrillic small letter; any other character unchanged.
[[nodiscard]] char32_t capital(char32_t c);
[[nodiscard]] std::string capitals(std::string_view text);

} // namespace qb
