// What a finding means for a test or one of its tubes. Here, and not with the findings, because a
// laboratory's profile may set consequences of its own.
#pragma once

#include <optional>
#include <string_view>

namespace qb::inline protocols {

// It never accuses and never decides about a patient: `note` is worth knowing, `review` asks a
// qualified person to look, `cannot_be_used` leaves a tube out of the curve, or a test unjudged,
// until a named person sets the finding aside.
enum class consequence { note, review, cannot_be_used };

// Their stable keys: "note", "review", "cannot-be-used"; nothing of another.
[[nodiscard]] const char* consequence_text(consequence c);
[[nodiscard]] std::optional<consequence> read_consequence(std::string_view text);

} // namespace qb::inline protocols
