// The fields of what is told later: of the drink, corrections, who scores, warning signs.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/session/event.hpp"

namespace qb {

// The object "data" of each kind: started, how.
[[nodiscard]] json::value encode_later(const reported_drink& x);
// what, kept, when, how, words.
[[nodiscard]] json::value encode_later(const reported_drink_trouble& x);
// corrects, field ("time", "tube", "score"), reason, and by field: time and how; really; symptom
// and score (left out where it was not to be scored).
[[nodiscard]] json::value encode_later(const corrected& x);
// self, who.
[[nodiscard]] json::value encode_later(const reported_scorer& x);
// sample, present.
[[nodiscard]] json::value encode_later(const reported_red_flags& x);

// Their readers; a refusal stays in the fields.
[[nodiscard]] reported_drink read_reported_drink(json::fields& d);
[[nodiscard]] reported_drink_trouble read_drink_trouble(json::fields& d);
[[nodiscard]] corrected read_corrected(json::fields& d);
[[nodiscard]] reported_scorer read_scorer(json::fields& d);
[[nodiscard]] reported_red_flags read_red_flags(json::fields& d);

} // namespace qb
