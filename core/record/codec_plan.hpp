// The plan inside its event, and the small pieces other kinds share.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/session/event.hpp"

#include <string>

namespace qb {

// The plan's object; due times are left out, since they follow from the protocol and the start.
[[nodiscard]] json::value encode_plan(const plan_made& x);
// Reads it back, works the due times out anew, and refuses a protocol that cannot be read.
[[nodiscard]] plan_made decode_plan(json::fields& d);

// A frozen file stands in an event as the JSON it is, not as a text within a text.
[[nodiscard]] json::value embedded(const std::string& canonical_text);
// Its canonical text again.
[[nodiscard]] std::string read_embedded(json::fields& d, const char* key);

// A calendar date, YYYY-MM-DD.
[[nodiscard]] civil_date read_date(json::fields& d, const char* key);

// An instant in RFC 3339 UTC.
[[nodiscard]] instant read_instant(json::fields& d, const char* key);

} // namespace qb
