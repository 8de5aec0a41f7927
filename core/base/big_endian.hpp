// Whole numbers in bytes, the highest first.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace qb {

// Of at most eight bytes.
[[nodiscard]] inline std::uint64_t big_endian(std::string_view bytes) {
  std::uint64_t out = 0;
  for (const char c : bytes)
    out = out << 8U | static_cast<unsigned char>(c);
  return out;
}

// In four bytes, which must hold it.
[[nodiscard]] inline std::string four_bytes(std::uint64_t n) {
  std::string out;
  for (unsigned int shift = 32; shift > 0; shift -= 8)
    out += static_cast<char>(n >> (shift - 8) & 0xFFU);
  return out;
}

} // namespace qb
