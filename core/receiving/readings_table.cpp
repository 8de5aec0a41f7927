// Parting a text into rows and cells.
#include "core/receiving/readings_table.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>
#include <optional>

namespace qb {

namespace {

std::string_view bare(std::string_view text) {
  constexpr std::string_view blanks = " \t";
  const std::size_t from = text.find_first_not_of(blanks);
  if (from == text.npos) return {};
  return text.substr(from, text.find_last_not_of(blanks) - from + 1);
}

// The cells of a line; nothing where a quote does not close.
std::optional<std::vector<std::string>> cells_of(std::string_view line, char parted_by) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at <= line.size();) {
    while (at < line.size() && line[at] == ' ')
      ++at;
    std::string cell;
    const bool quoted = at < line.size() && line[at] == '"';
    if (quoted) {
      for (++at; at < line.size() && (line[at] != '"' || line.substr(at, 2) == "\"\""); ++at) {
        if (line[at] == '"') ++at; // two quotes are one
        cell += line[at];
      }
      if (at >= line.size()) return std::nullopt;
      ++at;
    }
    const std::size_t end = std::min(line.find(parted_by, at), line.size());
    const std::string_view rest = bare(line.substr(at, end - at));
    if (quoted && !rest.empty()) return std::nullopt;
    out.push_back(quoted ? std::string(bare(cell)) : std::string(rest));
    at = end + 1;
  }
  return out;
}

// The next line, taken off the text; lines end in LF, CRLF or CR.
std::string_view take_line(std::string_view& text) {
  const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
  const std::string_view line = text.substr(0, end);
  const bool both = text.substr(end, 2) == "\r\n";
  text.remove_prefix(std::min(end + (both ? 2 : 1), text.size()));
  return line;
}

// What parts the cells of a header: of the three, the one that stands in it most often.
char parting_of(std::string_view header) {
  constexpr std::array<char, 3> marks{',', ';', '\t'};
  return *std::max_element(marks.begin(), marks.end(), [&](char a, char b) {
    return std::count(header.begin(), header.end(), a) <
           std::count(header.begin(), header.end(), b);
  });
}

std::string in_small_letters(std::string text) {
  for (char& c : text)
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

refusal no_at(int line, std::string found, std::string expected) {
  return {refusal_kind::malformed, "", fmt::format("line {}", line), std::move(found),
          std::move(expected)};
}

} // namespace

bool table_row::empty() const {
  return std::all_of(cells.begin(), cells.end(), [](const std::string& c) { return c.empty(); });
}

result<table> read_text_table(std::string_view text, std::size_t most_rows) {
  constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
    text.remove_prefix(byte_order_mark.size());
  if (text.find('\0') != text.npos || text.substr(0, 2) == "\xff\xfe")
    return tl::unexpected(refusal{refusal_kind::malformed, "", "", "text that is not UTF-8",
                                  "a table saved as CSV in UTF-8"});
  table out;
  char parted_by = 0;
  for (int number = 1; !text.empty(); ++number) {
    const std::string_view line = take_line(text);
    if (bare(line).empty() || (parted_by == 0 && bare(line).substr(0, 4) == "sep=")) continue;
    if (parted_by == 0) parted_by = parting_of(line);
    auto cells = cells_of(line, parted_by);
    if (!cells)
      return tl::unexpected(
          no_at(number, "a quote that does not close", "quotes around a whole cell"));
    table_row row{number, std::string(line), std::move(*cells)};
    if (row.empty()) continue;
    if (out.names.empty()) {
      for (const std::string& name : row.cells)
        out.names.push_back(in_small_letters(name));
      continue;
    }
    if (out.rows.size() == most_rows)
      return tl::unexpected(no_at(number, "another row", fmt::format("at most {}", most_rows)));
    out.rows.push_back(std::move(row));
  }
  if (out.names.empty())
    return tl::unexpected(
        refusal{refusal_kind::missing, "", "", "an empty file", "a header and its rows"});
  return out;
}

} // namespace qb
