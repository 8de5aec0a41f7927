// The fields of what is answered before a plan: kit code, cautions, washouts.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/session/event.hpp"

namespace qb {

// The object "data" of each kind: code, kit_number, protocol, expires.
[[nodiscard]] json::value encode_kit(const kit_told& x);
// rule, answer, outcome, who, words.
[[nodiscard]] json::value encode_caution(const caution_told& x);
// rule, answer, on (null where the answer has no day), agreed, who.
[[nodiscard]] json::value encode_washout(const washout_told& x);

// Their readers; a refusal stays in the fields.
[[nodiscard]] kit_told read_kit_told(json::fields& d);
[[nodiscard]] caution_told read_caution_told(json::fields& d);
[[nodiscard]] washout_told read_washout_told(json::fields& d);

} // namespace qb
