// The fields of each kind of fact, written and read side by side so that they cannot drift apart.
#pragma once

#include "core/base/canonical_fields.hpp"
#include "core/base/json_fields.hpp"
#include "core/record/frozen_rules.hpp"
#include "core/session/event.hpp"

#include <optional>
#include <string>

namespace qb::inline records {

// The fact's own fields, as the object "data" of an event.
[[nodiscard]] json::value encode_payload(const payload& p);

// Reads "data" of that kind; a kind that is not known refuses. `f` reads the event's object: as
// `fields`, or as `canonical_fields`.
template <typename Fields>
[[nodiscard]] std::optional<payload> decode_payload(const std::string& kind, Fields& f,
                                                    frozen_rules& known);

} // namespace qb::inline records
