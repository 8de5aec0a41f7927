// UTF-8 by hand: the texts were checked to be valid when they were read.
#include "app/lab/printable.hpp"

#include <cstdint>

namespace qb::lab {

namespace {

// The character that begins at `at`, and how many bytes it has. Bytes that are no UTF-8 (a file's
// name may be any) count as control characters.
struct one_character {
  std::uint32_t code{0};
  std::size_t bytes{1};
};

one_character at(const std::string& text, std::size_t i) {
  const auto byte = [&](std::size_t k) {
    return k < text.size() ? static_cast<unsigned char>(text[k]) : std::uint32_t{0};
  };
  const std::uint32_t first = byte(i);
  if (first < 0x80) return {first, 1};
  const std::size_t more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : first >= 0xC2 ? 1 : 0;
  if (more == 0 || first > 0xF4) return {0, 1};
  std::uint32_t code = first & (0x3FU >> more);
  for (std::size_t k = 1; k <= more; ++k) {
    if ((byte(i + k) & 0xC0U) != 0x80U) return {0, 1};
    code = code << 6U | (byte(i + k) & 0x3FU);
  }
  return {code, more + 1};
}

bool is_harmless(std::uint32_t c) {
  if (c < 0x20 || (c >= 0x7F && c <= 0x9F)) return false; // C0, DEL, C1
  if (c >= 0x200E && c <= 0x200F) return false;           // direction marks
  if (c >= 0x2028 && c <= 0x202E) return false;           // line ends, embeddings, overrides
  return c < 0x2066 || c > 0x2069;                        // isolates
}

} // namespace

std::string printable(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const one_character c = at(text, i);
    out += is_harmless(c.code) ? text.substr(i, c.bytes) : "?";
    i += c.bytes;
  }
  return out;
}

std::size_t characters(const std::string& text) {
  std::size_t n = 0;
  for (std::size_t i = 0; i < text.size(); i += at(text, i).bytes)
    ++n;
  return n;
}

std::string left_in(const std::string& text, std::size_t width) {
  const std::size_t has = characters(text);
  return has >= width ? text : text + std::string(width - has, ' ');
}

std::string right_in(const std::string& text, std::size_t width) {
  const std::size_t has = characters(text);
  return has >= width ? text : std::string(width - has, ' ') + text;
}

std::vector<std::string> wrapped(const std::string& text, std::size_t width) {
  std::vector<std::string> lines;
  std::string line;
  std::size_t in_line = 0;
  std::size_t last_space = std::string::npos;
  for (std::size_t i = 0; i < text.size();) {
    const one_character c = at(text, i);
    if (in_line == width) {
      std::string rest;
      if (c.code == ' ') {
        i += c.bytes;
      } else if (last_space != std::string::npos) {
        rest = line.substr(last_space + 1);
        line.resize(last_space);
      }
      lines.push_back(line);
      line = rest;
      in_line = characters(line);
      last_space = std::string::npos;
      continue;
    }
    if (c.code == ' ') last_space = line.size();
    line += text.substr(i, c.bytes);
    ++in_line;
    i += c.bytes;
  }
  if (!line.empty() || lines.empty()) lines.push_back(line);
  return lines;
}

} // namespace qb::lab
