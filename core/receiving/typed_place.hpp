// The words of a line that somebody typed, and where one stands, so that what is wrong can be found
// by eye.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// Between the words of a line, and between the times and groups of a paper sheet.
inline constexpr std::string_view typed_blanks = " \t\r\n\v\f";
inline constexpr std::string_view between_typed = " \t\r,;";

// The words of `line` in their order, each a piece of it; `between` has what stands between them.
[[nodiscard]] std::vector<std::string_view> typed_words(std::string_view line,
                                                        std::string_view between);

// `part`, the column (in characters, from 1) and the word itself: `times, column 24, "8:75"`. A
// word that is not of digits and their marks alone may be somebody's name, and is not repeated.
// `word` is a piece of `line`, and may be empty at its end.
[[nodiscard]] std::string typed_place(std::string_view part, std::string_view line,
                                      std::string_view word);

} // namespace qb::inline receiving
