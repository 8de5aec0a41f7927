// Where a word stands on a line that somebody typed, so that what is wrong can be found by eye.
#pragma once

#include <string>
#include <string_view>

namespace qb {

// `part`, the column (in characters, from 1) and the word itself: `times, column 24, "8:75"`. A
// word that is not of digits and their marks alone may be somebody's name, and is not repeated.
// `word` is a piece of `line`, and may be empty at its end.
[[nodiscard]] std::string typed_place(std::string_view part, std::string_view line,
                                      std::string_view word);

} // namespace qb
