// The fields of what is told later: of the drink, corrections, who scores, warning signs.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/session/event.hpp"

namespace qb {

// The object "data" of each kind: started, how.
[[nodiscard]] json::value encode_later(const drink_told& x);
// what, kept, when, how, words.
[[nodiscard]] json::value encode_later(const drink_trouble_told& x);
// corrects, field ("time", "tube", "score"), reason, and by field: time and how; really; symptom
// and score (left out where it was not to be scored).
[[nodiscard]] json::value encode_later(const corrected& x);
// self, who.
[[nodiscard]] json::value encode_later(const scorer_told& x);
// sample, present.
[[nodiscard]] json::value encode_later(const red_flags_told& x);

// Their readers; a refusal stays in the fields.
[[nodiscard]] drink_told read_drink_told(json::fields& d);
[[nodiscard]] drink_trouble_told read_drink_trouble(json::fields& d);
[[nodiscard]] corrected read_corrected(json::fields& d);
[[nodiscard]] scorer_told read_scorer(json::fields& d);
[[nodiscard]] red_flags_told read_red_flags(json::fields& d);

} // namespace qb
