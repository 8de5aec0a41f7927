// What may reach a terminal, and columns of characters.
#include "app/lab/context/printable.hpp"

#include "core/base/text.hpp"

namespace qb::lab {

namespace {

bool is_harmless(char32_t c) {
  if (c < 0x20 || (c >= 0x7F && c <= 0x9F)) return false; // C0, DEL, C1
  if (c >= 0x200E && c <= 0x200F) return false;           // direction marks
  if (c >= 0x2028 && c <= 0x202E) return false;           // line ends, embeddings, overrides
  return c < 0x2066 || c > 0x2069;                        // isolates
}

} // namespace

std::string printable(const std::string& text) {
  std::string out;
  for (std::size_t to = 0; to < text.size();) {
    const std::size_t from = to;
    const char32_t c = next_character(text, to);
    const bool broken = c == no_character && to == from + 1; // a file's name may be any bytes
    out += is_harmless(c) && !broken ? text.substr(from, to - from) : "?";
  }
  return out;
}

std::string left_in(const std::string& text, std::size_t width) {
  const std::size_t has = character_count(text);
  return has >= width ? text : text + std::string(width - has, ' ');
}

std::string right_in(const std::string& text, std::size_t width) {
  const std::size_t has = character_count(text);
  return has >= width ? text : std::string(width - has, ' ') + text;
}

std::vector<std::string> wrapped(const std::string& text, std::size_t width) {
  std::vector<std::string> lines;
  std::string line;
  std::size_t in_line = 0;
  std::size_t last_space = std::string::npos;
  for (const std::string& c : characters(text)) {
    if (in_line == width) {
      std::string rest;
      if (c != " " && last_space != std::string::npos) {
        rest = line.substr(last_space + 1);
        line.resize(last_space);
      }
      lines.push_back(line);
      line = rest;
      in_line = character_count(line);
      last_space = std::string::npos;
      if (c == " ") continue;
    }
    if (c == " ") last_space = line.size();
    line += c;
    ++in_line;
  }
  if (!line.empty() || lines.empty()) lines.push_back(line);
  return lines;
}

} // namespace qb::lab
