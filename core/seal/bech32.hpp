// Bech32 (BIP-173): how age writes its keys, a prefix and bytes with six characters of checksum.
// A recipient is copied by hand into a profile; a slip in it must show, not seal to nobody.
#pragma once

#include "core/base/result.hpp"

#include <string>
#include <string_view>

namespace qb::seal {

// A text taken apart: the prefix as it was written, and the data in groups of five bits (0 to 31).
struct bech32 {
  std::string prefix;
  std::string groups;
};

// Refuses mixed case, an unknown character, a wrong checksum, more than 90 characters. Never
// repeats the text, which may be a secret.
[[nodiscard]] result<bech32> read_bech32(std::string_view text);

// In lower case.
[[nodiscard]] std::string write_bech32(std::string_view prefix, std::string_view groups);

// Bytes as groups of five bits, the last filled up with zeros; and back, refusing a rest that is a
// whole group or not zero.
[[nodiscard]] std::string to_groups(std::string_view bytes);
[[nodiscard]] result<std::string> from_groups(std::string_view groups);

} // namespace qb::seal
