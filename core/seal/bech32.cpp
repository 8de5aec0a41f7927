// The checksum is a remainder over a field of 32 elements; its constants are those of BIP-173.
#include "core/seal/bech32.hpp"

#include "core/seal/secret.hpp"

#include <array>
#include <cstdint>

namespace qb::seal {

namespace {

constexpr std::string_view alphabet = "qpzry9x8gf2tvdw0s3jn54khce6mua7l";
constexpr std::size_t checksum_size = 6;
constexpr std::size_t most_characters = 90;
constexpr std::uint32_t group_bits = 5;
constexpr std::uint32_t group_mask = 31;
constexpr std::uint32_t byte_bits = 8;
constexpr std::uint32_t byte_mask = 255;

refusal no_key(std::string found) {
  return {refusal_kind::malformed, "", "key", std::move(found), "a key copied whole (Bech32)"};
}

// The remainder so far; unsigned, for the shifts run out at the top.
class checksum {
public:
  explicit checksum(std::string_view prefix) {
    for (const char c : prefix)
      feed(static_cast<unsigned char>(lower(c)) >> group_bits);
    feed(0);
    for (const char c : prefix)
      feed(static_cast<unsigned char>(lower(c)) & group_mask);
  }
  void feed(std::uint32_t group) {
    constexpr std::array<std::uint32_t, 5> generator{0x3b6a57b2U, 0x26508e6dU, 0x1ea119faU,
                                                     0x3d4233ddU, 0x2a1462b3U};
    constexpr std::uint32_t kept_bits = 25;
    const std::uint32_t top = state_ >> kept_bits;
    state_ = ((state_ & ((1U << kept_bits) - 1U)) << group_bits) ^ group;
    for (std::uint32_t i = 0; i < generator.size(); ++i)
      if (((top >> i) & 1U) != 0) state_ ^= generator[i];
  }
  [[nodiscard]] std::uint32_t remainder() const { return state_; }

  static char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

private:
  std::uint32_t state_{1};
};

bool is_printable(char c) {
  return c >= '!' && c <= '~';
}

bool is_mixed(std::string_view text) {
  bool small = false;
  bool large = false;
  for (const char c : text) {
    small = small || (c >= 'a' && c <= 'z');
    large = large || (c >= 'A' && c <= 'Z');
  }
  return small && large;
}

// The text without its checksum, as groups; nothing where a character is not of the alphabet.
result<std::string> groups_of(std::string_view data, checksum& sum) {
  std::string groups;
  groups.reserve(data.size());
  for (const char c : data) {
    const std::size_t at = alphabet.find(checksum::lower(c));
    if (at == std::string_view::npos) return tl::unexpected(no_key("a character that no key has"));
    sum.feed(static_cast<std::uint32_t>(at));
    groups += static_cast<char>(at);
  }
  groups.resize(groups.size() - checksum_size);
  return groups;
}

} // namespace

result<bech32> read_bech32(std::string_view text) {
  if (text.size() > most_characters) return tl::unexpected(no_key("a text that is too long"));
  if (is_mixed(text)) return tl::unexpected(no_key("small and capital letters mixed"));
  const std::size_t one = text.rfind('1');
  if (one == std::string_view::npos || one == 0 || one + 1 + checksum_size > text.size())
    return tl::unexpected(no_key("a text that is cut off, or no key"));
  bech32 out;
  out.prefix = std::string(text.substr(0, one));
  for (const char c : out.prefix)
    if (!is_printable(c)) return tl::unexpected(no_key("a character that no key has"));
  checksum sum(out.prefix);
  auto groups = groups_of(text.substr(one + 1), sum);
  if (!groups) return tl::unexpected(groups.error());
  if (sum.remainder() != 1) return tl::unexpected(no_key("a key with a wrong character"));
  out.groups = std::move(*groups);
  return out;
}

std::string write_bech32(std::string_view prefix, std::string_view groups) {
  checksum sum(prefix);
  std::string out(prefix);
  out.reserve(prefix.size() + 1 + groups.size() + checksum_size); // no copy is left behind
  out += '1';
  for (const char g : groups) {
    sum.feed(static_cast<unsigned char>(g));
    out += alphabet[static_cast<unsigned char>(g)];
  }
  for (std::size_t i = 0; i < checksum_size; ++i)
    sum.feed(0);
  const std::uint32_t rest = sum.remainder() ^ 1U;
  for (std::uint32_t i = 0; i < checksum_size; ++i)
    out += alphabet[(rest >> (group_bits * (checksum_size - 1 - i))) & group_mask];
  return out;
}

std::string to_groups(std::string_view bytes) {
  std::string out;
  out.reserve((bytes.size() * byte_bits + group_bits - 1) / group_bits);
  std::uint32_t kept = 0;
  std::uint32_t bits = 0;
  for (const char c : bytes) {
    kept = ((kept << byte_bits) | static_cast<unsigned char>(c)) & 0xFFFFU;
    for (bits += byte_bits; bits >= group_bits;) {
      bits -= group_bits;
      out += static_cast<char>((kept >> bits) & group_mask);
    }
  }
  if (bits > 0) out += static_cast<char>((kept << (group_bits - bits)) & group_mask);
  return out;
}

result<std::string> from_groups(std::string_view groups) {
  std::string out;
  out.reserve(groups.size());
  std::uint32_t kept = 0;
  std::uint32_t bits = 0;
  for (const char g : groups) {
    kept = ((kept << group_bits) | static_cast<unsigned char>(g)) & 0xFFFFU;
    bits += group_bits;
    if (bits < byte_bits) continue;
    bits -= byte_bits;
    out += static_cast<char>((kept >> bits) & byte_mask);
  }
  if (bits < group_bits && (kept & ((1U << bits) - 1U)) == 0) return out;
  wipe(out.data(), out.size());
  return tl::unexpected(no_key("a key with bits left over"));
}

} // namespace qb::seal
