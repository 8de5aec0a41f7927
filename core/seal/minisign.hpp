// Signature files as minisign writes and reads them (prehashed Ed25519, algorithm "ED").
//
// Four lines, each ended by a newline:
//   untrusted comment: TEXT                     not signed
//   base64(algorithm "ED", key id 8, signature 64 of the file's BLAKE2b-512)
//   trusted comment: TEXT                       signed by the next line
//   base64(signature 64 of the first signature followed by the trusted comment's text)
// A public key is base64("Ed", key id 8, key 32); a file of it has an untrusted comment above.
// The older form "Ed" (the file itself signed, without a hash) is refused.
// Check one with: minisign -V -P KEY -m FILE -x FILE.minisig
#pragma once

#include "core/base/result.hpp"
#include "core/seal/signing.hpp"

#include <string>

namespace qb::seal {

// Eight bytes by which a person tells keys apart; ours are cut from the key's own hash.
using key_id = std::array<unsigned char, 8>;

// A public key with the id it goes by.
struct named_key {
  key_id id{};
  public_key key{};
};

// The key's id is the beginning of its BLAKE2b-128.
[[nodiscard]] named_key named(const public_key& key);

// "4F1C…": 16 capital hexadecimal digits, in the order minisign prints them.
[[nodiscard]] std::string fingerprint(const key_id& id);

// "RW…", one line without its end. And back, from that line or from a file with a comment above.
[[nodiscard]] std::string public_key_text(const named_key& key);
[[nodiscard]] result<named_key> read_public_key(std::string_view text);

// The signature file of `bytes`. The comment is one line of printable ASCII; an own mistake else.
[[nodiscard]] std::string sign_file(std::string_view bytes, const signing_key& key,
                                    const std::string& trusted_comment);

// A signature file as it was read; nothing of it is proven before `check_signature`.
struct file_signature {
  key_id id{};
  signature of_hash{};
  std::string trusted_comment;
  signature of_comment{};
};

// Refuses what is not of the form above, down to the last byte, and lines of an unlikely length.
[[nodiscard]] result<file_signature> read_signature(std::string_view text);

// Refuses a signature by another key, of other bytes, or with another trusted comment.
[[nodiscard]] result<void> check_signature(std::string_view bytes, const file_signature& s,
                                           const named_key& key);

} // namespace qb::seal
