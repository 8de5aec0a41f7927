// Texts as people write them: characters of UTF-8, and the blanks around a word.
// Characters are code points, walked by the library utfcpp, composed by utf8proc. What arrives from
// outside was checked when it was read; names of files may be any bytes, so nothing here fails on a
// broken sequence.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace qb {

// What stands for bytes that are no character: U+FFFD.
inline constexpr char32_t no_character = 0xFFFD;

// Whether the whole text is valid UTF-8.
[[nodiscard]] bool is_utf8(std::string_view text);

// The character that starts at byte `at`, which moves past it. A broken sequence gives
// `no_character` and moves one byte. `at` must be inside the text.
[[nodiscard]] char32_t next_character(std::string_view text, std::size_t& at);

// Adds one character, which must be a code point that UTF-8 can hold.
void append_character(std::string& text, char32_t c);

// Takes the last whole character off; nothing when empty.
void erase_last_character(std::string& text);

// How many characters the text has; each stray byte counts as one.
[[nodiscard]] std::size_t character_count(std::string_view text);

// The text cut into its characters, each as UTF-8; a stray byte stands by itself.
[[nodiscard]] std::vector<std::string> characters(std::string_view text);

// The same text in Unicode's composed form (NFC): what was typed as a letter and its accent, on
// another keyboard as one sign, is one text and of one length. A text that is no UTF-8 stays.
[[nodiscard]] std::string composed(std::string_view text);

// The text for comparing alone: composed, and without the difference of large and small letters.
[[nodiscard]] std::string folded(std::string_view text);

// Without the spaces, tabs and line ends before and after it.
[[nodiscard]] std::string trimmed(std::string_view text);

} // namespace qb
