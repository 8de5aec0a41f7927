// Checks of what is told after it happened, and the small checks that all commands share.
// Each answers the refusal, or nothing where the fact may be recorded.
#pragma once

#include "core/session/now.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline sessions {

using verdict = std::optional<refusal>;

// A refusal for now, or one of a value; the key names its sentence.
[[nodiscard]] verdict no(const char* key, std::string sentence);
[[nodiscard]] verdict bad(const char* key, std::string sentence);

// Whether the record can hold that text, or each text of a list.
[[nodiscard]] verdict fits(const std::string& text, bool may_be_empty);
[[nodiscard]] verdict all_fit(const std::vector<std::string>& texts);

// Whether it may be recorded at that reading. A running test and a known tube are asked before.
[[nodiscard]] verdict may_tell(const state& s, const reported_drink& x);
[[nodiscard]] verdict may_tell(const state& s, const reported_drink_trouble& x,
                               const clock_reading& now);
[[nodiscard]] verdict may_tell(const state& s, const corrected& x, const clock_reading& now);
[[nodiscard]] verdict may_tell(const state& s, const reported_scorer& x);
[[nodiscard]] verdict may_tell(const state& s, const reported_red_flags& x);

} // namespace qb::inline sessions
