// A signing key's seed as one line of text: "qbdevice1…", Bech32 with its checksum.
// A damaged key must be seen as damaged, not sign as somebody else.
#pragma once

#include "core/base/result.hpp"
#include "core/seal/secret.hpp"

#include <string>
#include <string_view>

namespace qb::seal {

// Ends with a newline. The caller wipes it.
[[nodiscard]] std::string seed_text(const secret<32>& seed);

// Refuses anything else than exactly what `seed_text` makes; the message holds nothing of it.
[[nodiscard]] result<secret<32>> read_seed(std::string_view text);

} // namespace qb::seal
