// One row of a record sealed by itself, so that a wrong byte costs that row and no other.
//
// Nonce (24 bytes), ciphertext, tag (16 bytes): XChaCha20-Poly1305 as libsodium has it
// (crypto_aead_xchacha20poly1305_ietf; draft-irtf-cfrg-xchacha-03). Its associated data is the
// row's place in the record: a row that was moved to another place does not open there. Which
// record it is of says the key, since no two have the same.
#pragma once

#include "core/seal/secret.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace qb::seal {

using row_nonce = std::array<unsigned char, 24>;

// `nonce` is drawn anew for each row: none twice under one key.
[[nodiscard]] std::string seal_row(std::string_view text, std::string_view place,
                                   const secret<32>& key, const row_nonce& nonce);

// Nothing where a bit of it is wrong, the place or the key is another.
[[nodiscard]] std::optional<std::string> open_row(std::string_view sealed, std::string_view place,
                                                  const secret<32>& key);

// The same for a row of which one byte of the nonce may be wrong: every other byte is tried.
[[nodiscard]] std::optional<std::string>
open_with_nonce_mended(std::string sealed, std::string_view place, const secret<32>& key);

// The text without asking its tag: what is wrong in the one is wrong at the same place in the
// other. Only for who has another proof of it. Empty where it is too short to be a row.
[[nodiscard]] std::string unproved_row(std::string_view sealed, const secret<32>& key);

} // namespace qb::seal
