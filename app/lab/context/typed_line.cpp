// Byte by byte, so that nothing behind the line is taken.
#include "app/lab/context/typed_line.hpp"

namespace qb::lab {

std::optional<std::string> read_line(std::FILE* from, bool& too_long) {
  std::string out;
  too_long = false;
  int c = std::fgetc(from);
  if (c == EOF) return std::nullopt;
  for (; c != EOF && c != '\n'; c = std::fgetc(from)) {
    if (out.size() < most_line) {
      out += static_cast<char>(c);
    } else {
      too_long = true;
    }
  }
  return out;
}

} // namespace qb::lab
