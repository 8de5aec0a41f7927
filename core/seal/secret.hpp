// Bytes that must not stay in memory: wiped when they go.
// A key that is left behind in freed memory can end up in a core file or in the swap.
#pragma once

#include <array>
#include <cstddef>

namespace qb::seal {

// Overwrites memory in a way the compiler may not leave out.
void wipe(void* at, std::size_t size);

// `size` secret bytes. Every copy is wiped when it ends.
template <std::size_t size>
struct secret {
  std::array<unsigned char, size> bytes{};

  secret() = default;
  explicit secret(const std::array<unsigned char, size>& from) : bytes(from) {}
  secret(const secret&) = default;
  secret& operator=(const secret&) = default;
  ~secret() { wipe(bytes.data(), size); }
};

} // namespace qb::seal
