// From what was sent to the log inside it: sealed or not, attached to a sheet or by itself.
// Every layer is taken off strictly, and nothing is written to the disk on the way.
#pragma once

#include "core/seal/age.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::lab {

// A log's text, and the text of the signature that came with it, if one did.
struct unpacked_log {
  std::string text;
  std::optional<std::string> signature;
};

// What is neither sealed nor a PDF is taken for the log itself. Refuses a sealed file that none of
// the identities opens, one sealed twice, and a PDF with no log attached, or with several.
[[nodiscard]] result<unpacked_log> unpack(std::string bytes,
                                          const std::vector<seal::identity>& identities);

// Whether a refusal of `unpack` means only that this file carries no log for us: a PDF without one,
// or a sealed file while no identity was given. In a folder such files are passed over.
[[nodiscard]] bool carries_nothing(const refusal& no);

// The laboratory's identities, from a file as age-keygen writes it.
struct identity_file {
  std::vector<seal::identity> identities;
  bool open_to_others{false}; // others than its owner may read it
};
[[nodiscard]] result<identity_file> read_identities(const std::string& path);

} // namespace qb::lab
