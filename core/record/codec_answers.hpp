// The fields of what is answered before a plan: kit code, cautions, washouts.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/session/event.hpp"

namespace qb {

// The object "data" of each kind: code, kit_number, protocol, expires.
[[nodiscard]] json::value encode_kit(const reported_kit& x);
// rule, answer, outcome, who, words.
[[nodiscard]] json::value encode_caution(const reported_caution& x);
// rule, answer, on (null where the answer has no day), agreed, who.
[[nodiscard]] json::value encode_washout(const reported_washout& x);

// Their readers; a refusal stays in the fields.
[[nodiscard]] reported_kit read_reported_kit(json::fields& d);
[[nodiscard]] reported_caution read_reported_caution(json::fields& d);
[[nodiscard]] reported_washout read_reported_washout(json::fields& d);

} // namespace qb
