// Ed25519 signatures (RFC 8032) over bytes.
// A signature by a key made on a device proves one thing: unchanged since export by whoever held
// this device. It does not prove who that was.
#pragma once

#include "core/seal/secret.hpp"

#include <string_view>

namespace qb::seal {

using public_key = std::array<unsigned char, 32>;
using signature = std::array<unsigned char, 64>;

// A pair of keys, made from 32 bytes that the caller drew (core draws nothing).
class signing_key {
public:
  explicit signing_key(const secret<32>& seed);
  [[nodiscard]] const public_key& open_half() const { return public_; }

private:
  friend signature sign(std::string_view bytes, const signing_key& key);
  secret<64> secret_;
  public_key public_{};
};

// The same bytes and key give the same signature.
[[nodiscard]] signature sign(std::string_view bytes, const signing_key& key);

// Whether `s` is a signature of `bytes` by the key's owner. False too for keys that are none.
[[nodiscard]] bool verifies(std::string_view bytes, const signature& s, const public_key& key);

} // namespace qb::seal
