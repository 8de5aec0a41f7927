// The sealed text of an age file, piece by piece.
// Apart from the head because it knows one key and nothing of recipients.
#pragma once

#include "core/base/result.hpp"
#include "core/seal/secret.hpp"

#include <string>
#include <string_view>

namespace qb::seal {

// Each piece with its code of 16 bytes after it; an empty text is one empty piece.
[[nodiscard]] std::string seal_pieces(std::string_view plain, const secret<32>& key);

// Refuses a piece that was changed, a file cut anywhere, anything after its end, and an empty last
// piece after a full one.
[[nodiscard]] result<std::string> open_pieces(std::string_view sealed, const secret<32>& key);

} // namespace qb::seal
