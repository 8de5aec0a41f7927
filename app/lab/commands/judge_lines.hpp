// A batch of curves: one JSON object a line in, one a line out, in the same order.
// Lines are read and answered one by one, so that a batch of any length needs the same memory.
#pragma once

#include "core/base/result.hpp"

#include <cstdio>
#include <functional>
#include <string>
#include <string_view>

namespace qb::lab {

// A longer line is no curve.
inline constexpr std::size_t most_line_bytes = 1024UL * 1024UL;

// Calls `each` with every line, without its end, and its number from 1. A line that is too long
// comes empty, with `too_long` set. The last line need not have an end. Refuses when reading fails.
using line_taker = std::function<void(std::string_view line, std::size_t number, bool too_long)>;
[[nodiscard]] result<void> each_line(std::FILE* from, const line_taker& each);

} // namespace qb::lab
