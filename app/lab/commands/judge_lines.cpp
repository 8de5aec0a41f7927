// Reading in large pieces, answering in lines.
#include "app/lab/commands/judge_lines.hpp"

#include <cerrno>
#include <cstring>
#include <vector>

namespace qb::lab {

result<void> each_line(std::FILE* from, const line_taker& each) {
  constexpr std::size_t piece_bytes = 256UL * 1024UL;
  std::vector<char> piece(piece_bytes);
  std::string begun; // what was read of a line that is not ended yet
  bool too_long = false;
  std::size_t number = 0;
  const auto end_line = [&](std::string_view rest) {
    std::string_view line = rest;
    if (!begun.empty()) line = begun.append(rest);
    too_long = too_long || line.size() > most_line_bytes;
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    each(too_long ? std::string_view() : line, ++number, too_long);
    begun.clear();
    too_long = false;
  };
  for (;;) {
    errno = 0;
    const std::size_t got = std::fread(piece.data(), 1, piece.size(), from);
    std::string_view left(piece.data(), got);
    for (auto end = left.find('\n'); end != left.npos; end = left.find('\n')) {
      end_line(left.substr(0, end));
      left.remove_prefix(end + 1);
    }
    if (begun.size() + left.size() > most_line_bytes) {
      too_long = true; // the rest of the line is passed over
      begun.assign(1, ' ');
    } else {
      begun.append(left);
    }
    if (got < piece.size()) break;
  }
  if (std::ferror(from) != 0)
    return tl::unexpected(refusal{errno == EISDIR ? refusal_kind::missing : refusal_kind::machine,
                                  "", "", std::strerror(errno), "lines that can be read"});
  if (!begun.empty()) end_line("");
  return {};
}

} // namespace qb::lab
