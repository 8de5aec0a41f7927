// What the fuzz targets share: the input as text, and a way to stop where a promise is broken.
// The fuzzer counts a stop as a finding and keeps the input.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

namespace qb::test {

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

// A promise of the reader under test.
inline void promised(bool kept) {
  if (!kept) std::abort();
}

} // namespace qb::test
