// A line that somebody types or scans.
#pragma once

#include <cstdio>
#include <optional>
#include <string>

namespace qb::lab {

// Bytes of one typed or scanned line.
inline constexpr std::size_t most_line = 4096;

// A line without its end; nothing at the end of input. What is longer than any line of ours is
// passed over whole, and `too_long` says so.
[[nodiscard]] std::optional<std::string> read_line(std::FILE* from, bool& too_long);

} // namespace qb::lab
