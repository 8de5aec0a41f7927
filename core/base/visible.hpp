// Words as they may reach a terminal or a spreadsheet: whoever wrote them, what is read there is
// what is there. Every terminal output of both programs goes through here, every cell, all paper.
#pragma once

#include <string>
#include <string_view>

namespace qb {

// The text with each character that moves a terminal, turns the reading order, or is not seen at
// all, shown by its number as JSON writes it ("\u202e"; in JSON it stays the same text): control
// and format characters, fillers, tags, bytes that are no UTF-8 ("\xff"). Line ends and tabs stay,
// and so do joiners between letters of a script that joins them.
[[nodiscard]] std::string visible(std::string_view text);

// The same in one line: line ends and tabs are shown too.
[[nodiscard]] std::string visible_line(std::string_view text);

} // namespace qb
