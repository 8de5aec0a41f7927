// The head of an age v1 file: who can open it, under a code that shows any change.
//
//   age-encryption.org/v1
//   -> KIND ARGUMENT…          one stanza a recipient; arguments are printable ASCII
//   base64 without padding, in lines of 64 characters and one shorter (even empty) last line
//   --- base64(HMAC-SHA256 of all of the above up to and with "---")
// The payload follows the last newline. Read strictly: one spelling, nothing over.
#pragma once

#include "core/base/result.hpp"

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace qb::seal {

// One recipient's way to the file's key.
struct stanza {
  std::string kind;
  std::vector<std::string> arguments;
  std::string body;
};

// A head as it was read; nothing of it is proven before its code was held against it.
struct age_header {
  std::vector<stanza> stanzas;
  std::array<unsigned char, 32> code{};
  std::size_t covered{0}; // how many bytes the code is of
  std::size_t size{0};    // where the payload begins
};

// Refuses as `newer` another version of the format; a head of more than 64 KiB; text armour.
[[nodiscard]] result<age_header> read_age_header(std::string_view file);

// Everything the code is of: the version, the stanzas, and "---". Bodies are under 48 bytes.
[[nodiscard]] std::string covered_text(const std::vector<stanza>& stanzas);

} // namespace qb::seal
