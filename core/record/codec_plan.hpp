// The plan inside its event.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/session/event.hpp"

namespace qb {

// The plan's object; due times are left out, since they follow from the protocol and the start.
[[nodiscard]] json::value encode_fact(const plan_made& x);
// Reads it back, works the due times out anew, and refuses a protocol that cannot be read.
void decode_fact(json::fields& d, plan_made& x);

} // namespace qb
