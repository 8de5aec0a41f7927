// Base64 (RFC 4648, the standard alphabet) in the one form each text may have.
// Two spellings of the same bytes would let a sealed or signed file be changed unnoticed.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace qb::seal {

enum class padding { with, without }; // minisign pads with '=', age does not

// Without line breaks.
[[nodiscard]] std::string to_base64(std::string_view bytes, padding p);

// Nothing unless `text` is exactly what `to_base64` makes of some bytes.
[[nodiscard]] std::optional<std::string> from_base64(std::string_view text, padding p);

} // namespace qb::seal
