// A date typed as day, month, year: "11 02 1957", "11.2.1957", "11021957".
// Lenient about what stands between the figures, strict about the date.
#pragma once

#include "core/time/civil.hpp"

#include <optional>
#include <string>

namespace qb::inline screens {

// The date; nothing where the figures are not a day, a month and a year of four figures, or name
// no date.
[[nodiscard]] std::optional<civil_date> parse_typed_date(const std::string& typed);

// As it would be typed: "11 02 1957".
[[nodiscard]] std::string typed_text(civil_date date);

} // namespace qb::inline screens
