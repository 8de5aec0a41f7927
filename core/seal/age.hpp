// Files sealed to a laboratory's key in the age v1 form, and opened again.
//
// After the head (age_header.hpp) come 16 bytes of nonce and the text in pieces of 64 KiB, each
// sealed with ChaCha20-Poly1305: the nonce is an 11-byte counter and one byte, 1 for the last
// piece, so that a file that was cut, even between two pieces, does not open. The keys:
//   file key   16 random bytes
//   wrap key   HKDF(shared X25519 secret, salt = share and recipient,
//              "age-encryption.org/v1/X25519"), seals the file key with a zero nonce
//   code key   HKDF(file key, no salt, "header")
//   payload    HKDF(file key, salt = nonce, "payload")
// `age --decrypt --identity KEYFILE FILE` opens what `seal_to` makes.
#pragma once

#include "core/seal/age_keys.hpp"

namespace qb::seal {

// Everything random about one file; drawn by the caller, and never used twice.
struct sealing_chance {
  secret<16> file_key;
  secret<32> share;
  std::array<unsigned char, 16> nonce{};
};

// Cuts the three from 64 bytes of chance.
[[nodiscard]] sealing_chance chance_from(const secret<64>& bytes);

// The three from 64 drawn bytes and the text itself, so that two texts never share a key, not even
// where the same bytes were drawn twice; and the same draw with the same text is the same file.
[[nodiscard]] sealing_chance chance_for(const secret<64>& drawn, std::string_view plain);

// Refuses a recipient that is no point of the curve.
[[nodiscard]] result<std::string> seal_to(const recipient& to, std::string_view plain,
                                          const sealing_chance& chance);

// The whole text, or a refusal: nothing of a file that is not whole is given out. Stanzas of other
// kinds are passed over; with several identities the first that fits opens it. As `missing` where
// the file is sealed to others.
[[nodiscard]] result<std::string> open_sealed(std::string_view file,
                                              const std::vector<identity>& by);

// What `open_sealed` finds where it was given no identity at all.
inline constexpr const char* no_identity_given = "a sealed file";

// Whether these bytes claim to be an age file.
[[nodiscard]] bool looks_sealed(std::string_view file);

} // namespace qb::seal
