// One wrong byte in a row's body, put right: only the right one fits the hash that stands beside
// it.
#pragma once

#include <optional>
#include <string>

namespace qb::inline records {

// The body that differs from `damaged` in one byte, a printable one, and whose hash after `before`
// is `hash`; nothing where there is none, or the body is too long to try.
[[nodiscard]] std::optional<std::string>
mended_row(const std::string& before, const std::string& damaged, const std::string& hash);

} // namespace qb::inline records
