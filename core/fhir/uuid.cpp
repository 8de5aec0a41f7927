// SHA-1 by its standard, block by block; the UUID is its first 16 bytes with version and variant.
#include "core/fhir/uuid.hpp"

#include <fmt/core.h>

namespace qb::fhir {

namespace {

constexpr std::size_t block_size = 64;
constexpr std::size_t length_size = 8;

std::uint32_t turned(std::uint32_t x, unsigned by) {
  return (x << by) | (x >> (32U - by));
}

// The message with a one bit, zeros and its length in bits, in whole blocks.
std::string padded(std::string_view bytes) {
  std::string out(bytes);
  out += '\x80';
  while (out.size() % block_size != block_size - length_size)
    out += '\0';
  const std::uint64_t bits = std::uint64_t{bytes.size()} * 8;
  for (std::size_t i = 0; i < length_size; ++i)
    out += static_cast<char>((bits >> (8 * (length_size - 1 - i))) & 0xffU);
  return out;
}

std::array<std::uint32_t, 80> schedule(std::string_view block) {
  std::array<std::uint32_t, 80> w{};
  for (std::size_t i = 0; i < 16; ++i)
    for (std::size_t b = 0; b < 4; ++b)
      w[i] = (w[i] << 8U) | static_cast<std::uint8_t>(block[4 * i + b]);
  for (std::size_t i = 16; i < w.size(); ++i)
    w[i] = turned(w[i - 3] ^ w[i - 8] ^ w[i - 14] ^ w[i - 16], 1);
  return w;
}

// The round's function of three words, with its constant.
std::uint32_t mixed(std::size_t round, std::uint32_t b, std::uint32_t c, std::uint32_t d) {
  switch (round / 20) {
  case 0: return ((b & c) | (~b & d)) + 0x5a827999U;
  case 1: return (b ^ c ^ d) + 0x6ed9eba1U;
  case 2: return ((b & c) | (b & d) | (c & d)) + 0x8f1bbcdcU;
  default: return (b ^ c ^ d) + 0xca62c1d6U;
  }
}

void take_block(std::string_view block, std::array<std::uint32_t, 5>& h) {
  const auto w = schedule(block);
  auto [a, b, c, d, e] = h;
  for (std::size_t i = 0; i < w.size(); ++i) {
    const std::uint32_t next = turned(a, 5) + mixed(i, b, c, d) + e + w[i];
    e = d;
    d = c;
    c = turned(b, 30);
    b = a;
    a = next;
  }
  h = {h[0] + a, h[1] + b, h[2] + c, h[3] + d, h[4] + e};
}

// 6ba7b811-9dad-11d1-80b4-00c04fd430c8, the RFC's namespace of URLs (its appendix C).
constexpr std::string_view url_namespace{
    "\x6b\xa7\xb8\x11\x9d\xad\x11\xd1\x80\xb4\x00\xc0\x4f\xd4\x30\xc8", 16};

} // namespace

std::array<std::uint8_t, 20> sha1(std::string_view bytes) {
  std::array<std::uint32_t, 5> h{0x67452301U, 0xefcdab89U, 0x98badcfeU, 0x10325476U, 0xc3d2e1f0U};
  const std::string all = padded(bytes);
  for (std::size_t at = 0; at < all.size(); at += block_size)
    take_block(std::string_view(all).substr(at, block_size), h);
  std::array<std::uint8_t, 20> out{};
  for (std::size_t i = 0; i < out.size(); ++i)
    out[i] = static_cast<std::uint8_t>(h[i / 4] >> (24U - 8U * (i % 4)));
  return out;
}

std::string uuid_of_url(std::string_view url) {
  std::array<std::uint8_t, 20> hash = sha1(std::string(url_namespace) + std::string(url));
  hash[6] = static_cast<std::uint8_t>((hash[6] & 0x0fU) | 0x50U);
  hash[8] = static_cast<std::uint8_t>((hash[8] & 0x3fU) | 0x80U);
  std::string out;
  for (std::size_t i = 0; i < 16; ++i) {
    if (i == 4 || i == 6 || i == 8 || i == 10) out += '-';
    out += fmt::format("{:02x}", hash[i]);
  }
  return out;
}

} // namespace qb::fhir
