// Texts from logs on a terminal: nothing in them may move the cursor or turn the reading order.
// And columns, counted in characters.
#pragma once

#include <string>
#include <vector>

namespace qb::lab {

// The text in one line as a terminal may have it (core/base/visible.hpp), so that columns are
// counted of what is printed.
[[nodiscard]] std::string printable(const std::string& text);

// The text in a column of that many characters, filled with spaces on one side; longer texts stay.
[[nodiscard]] std::string left_in(const std::string& text, std::size_t width);
[[nodiscard]] std::string right_in(const std::string& text, std::size_t width);

// The words in lines of at most `width` characters; a longer word is broken.
[[nodiscard]] std::vector<std::string> wrapped(const std::string& text, std::size_t width);

} // namespace qb::lab
