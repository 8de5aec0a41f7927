// Bytes as hexadecimal digits, two a byte, small letters; and back.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace qb {

// Never refuses; of no bytes no digits.
[[nodiscard]] std::string hex_of(std::string_view bytes);

// Nothing where something else than whole pairs of digits stands there.
[[nodiscard]] std::optional<std::string> bytes_of_hex(std::string_view digits);

} // namespace qb
