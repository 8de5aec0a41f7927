// Base45 (RFC 9285): bytes as the 45 characters a QR code packs tightest, and back.
// Needed because a hand scanner types what it reads: bytes would not survive a keyboard.
#pragma once

#include "core/base/result.hpp"

#include <string>
#include <string_view>

namespace qb::code {

// The characters in the order of their values 0 to 44 (RFC 9285, table 1).
inline constexpr std::string_view base45_alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

// Two bytes as three characters, least place first; a last single byte as two.
[[nodiscard]] std::string base45(std::string_view bytes);

// Refuses other characters, a length no bytes have, and groups beyond their bytes (RFC 9285, 6).
[[nodiscard]] result<std::string> read_base45(std::string_view text);

} // namespace qb::code
