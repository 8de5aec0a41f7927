// Base45 in groups of three characters; the largest values of a group are more than its bytes hold.
#include "core/code/base45.hpp"

#include <cstdint>
#include <fmt/core.h>

namespace qb::code {

namespace {

constexpr std::uint32_t base = 45;
constexpr std::size_t group = 3;

std::uint32_t byte_at(std::string_view bytes, std::size_t i) {
  return static_cast<unsigned char>(bytes[i]);
}

void put_digits(std::uint32_t n, std::size_t count, std::string& out) {
  for (std::size_t i = 0; i < count; ++i, n /= base)
    out += base45_alphabet[n % base];
}

tl::unexpected<refusal> no(std::size_t place, std::string found, std::string expected) {
  return tl::unexpected(refusal{refusal_kind::malformed, "", fmt::format("character {}", place + 1),
                                std::move(found), std::move(expected)});
}

} // namespace

std::string base45(std::string_view bytes) {
  std::string out;
  std::size_t i = 0;
  for (; i + 1 < bytes.size(); i += 2)
    put_digits(byte_at(bytes, i) * 256 + byte_at(bytes, i + 1), group, out);
  if (i < bytes.size()) put_digits(byte_at(bytes, i), group - 1, out);
  return out;
}

result<std::string> read_base45(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); i += group) {
    const std::string_view digits = text.substr(i, group);
    if (digits.size() == 1)
      return no(i, "a single character", "groups of three, or two at the end");
    std::uint32_t n = 0;
    std::uint32_t place = 1;
    for (std::size_t k = 0; k < digits.size(); ++k, place *= base) {
      const std::size_t digit = base45_alphabet.find(digits[k]);
      if (digit == std::string_view::npos)
        return no(i + k, "a character Base45 has not", "one of its 45");
      n += static_cast<std::uint32_t>(digit) * place;
    }
    const bool pair = digits.size() == group;
    if (n > (pair ? 0xFFFFU : 0xFFU)) return no(i, "a group beyond its bytes", "a smaller one");
    if (pair) out += static_cast<char>(n >> 8U);
    out += static_cast<char>(n & 0xFFU);
  }
  return out;
}

} // namespace qb::code
