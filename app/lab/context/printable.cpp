// Columns of characters.
#include "app/lab/context/printable.hpp"

#include "core/base/text.hpp"
#include "core/base/visible.hpp"

namespace qb::lab {

std::string printable(const std::string& text) {
  return visible_line(text);
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
