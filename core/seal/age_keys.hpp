// The two halves of an age key: the recipient, which anyone may know, and the identity, which
// opens. A laboratory's recipient stands in its profile; its identity never leaves the laboratory.
#pragma once

#include "core/base/result.hpp"
#include "core/seal/secret.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace qb::seal {

// "age1…", 62 characters: an X25519 public key.
struct recipient {
  std::array<unsigned char, 32> point{};
};

// "AGE-SECRET-KEY-1…": the secret of the same pair.
struct identity {
  secret<32> scalar;
};

// From "age1…". Refuses any other kind of key, and one with a wrong character.
[[nodiscard]] result<recipient> read_recipient(std::string_view text);

// The message never holds any of the text.
[[nodiscard]] result<identity> read_identity(std::string_view text);
[[nodiscard]] recipient recipient_of(const identity& i);

// A file as age-keygen writes it: one identity a line, empty lines and lines beginning with # are
// passed over. Refuses any other line by its number, and a file without an identity.
[[nodiscard]] result<std::vector<identity>> read_identity_file(std::string_view text);

} // namespace qb::seal
