// One form of a kit number, however it was typed, scanned or copied.
// The patient's side and the laboratory's both fold here, so that "FV 2071" on one and "fv–2071" on
// the other are one kit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace qb::inline protocols {

// A kit number as it is kept: capitals of ASCII, one hyphen where one or more blanks or dashes of
// any length stand between two parts, nothing around it. Letters and digits of full width are those
// of ASCII. Nothing where it cannot be one (1 to 64 letters, digits and hyphens between them, one
// digit at least; or the number that a kit code gives, "FV-ACDE", which may have none).
[[nodiscard]] std::optional<std::string> read_kit_number(std::string_view text);

// What a kit is joined by: its number in that form; a text that is no kit number stands for itself.
[[nodiscard]] std::string kit_key(const std::string& text);

} // namespace qb::inline protocols
