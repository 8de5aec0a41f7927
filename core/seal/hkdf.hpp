// HKDF with SHA-256 (RFC 5869): several keys out of one, each for its own use.
// Ours, because the libsodium of Debian 12 (1.0.18) has it not yet; age is built on it.
#pragma once

#include "core/seal/secret.hpp"

#include <span>
#include <string_view>

namespace qb::seal {

// Fills `out`, at most 255 * 32 bytes.
void hkdf_sha256(std::string_view key, std::string_view salt, std::string_view purpose,
                 std::span<unsigned char> out);

// The 32 bytes that age takes each time.
[[nodiscard]] secret<32> derived_key(std::string_view key, std::string_view salt,
                                     std::string_view purpose);

// HMAC-SHA256 (RFC 2104) with a key of any length.
[[nodiscard]] secret<32> hmac_sha256(std::string_view key, std::string_view bytes);

} // namespace qb::seal
