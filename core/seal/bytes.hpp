// Texts seen as the bytes that libsodium wants, and keys seen as texts.
// The one place of core/seal where a pointer is read as another kind.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace qb::seal {

// The text's bytes, to read; lives as long as the text.
inline const unsigned char* raw(std::string_view bytes) {
  return reinterpret_cast<const unsigned char*>(bytes.data());
}

// The same, to write; never beyond the text's size.
inline unsigned char* raw(std::string& bytes) {
  return reinterpret_cast<unsigned char*>(bytes.data());
}

// The array's bytes; lives as long as the array.
template <std::size_t size>
std::string_view seen(const std::array<unsigned char, size>& bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), size};
}

// The first `size` bytes of a text that has at least as many.
template <std::size_t size>
std::array<unsigned char, size> taken(std::string_view bytes) {
  std::array<unsigned char, size> out{};
  for (std::size_t i = 0; i < size; ++i)
    out[i] = static_cast<unsigned char>(bytes[i]);
  return out;
}

} // namespace qb::seal
