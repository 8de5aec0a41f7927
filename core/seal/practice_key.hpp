// The keys that a script played through signs and seals with. Everybody has them, so that they
// prove nothing; they stand here because the laboratory must know one when it sees it.
#pragma once

#include "core/seal/signing.hpp"

namespace qb::seal {

// The text that they are derived from.
inline constexpr const char* practice_secret = "quarterbreath practice key, known to everybody";

// The same each time it is asked for.
[[nodiscard]] signing_key practice_signing_key();

} // namespace qb::seal
