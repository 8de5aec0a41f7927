// The fields of what is told before the drink: kit code, cautions, washouts, packet, and the plan.
#pragma once

#include "core/base/canonical_fields.hpp"
#include "core/base/json_fields.hpp"
#include "core/record/frozen_rules.hpp"
#include "core/session/event.hpp"

namespace qb::inline records {

// Each pair writes the object "data" of its kind and reads it back; a refusal stays in the fields.
// code, kit_number, protocol, expires.
[[nodiscard]] json::value encode_fact(const reported_kit& x);
template <typename Fields>
void decode_fact(Fields& d, reported_kit& x);
// rule, answer, outcome, who, words; from version 3 on by, said_by, asked_again and for_test where
// said.
[[nodiscard]] json::value encode_fact(const reported_caution& x);
template <typename Fields>
void decode_fact(Fields& d, reported_caution& x);
// name, amount, unit, words; asked_again where it was.
[[nodiscard]] json::value encode_fact(const reported_packet& x);
template <typename Fields>
void decode_fact(Fields& d, reported_packet& x);
// rule, answer, on (null where the answer has no day), agreed, who; from version 3 on said_by where
// it was said, and asked_again.
[[nodiscard]] json::value encode_fact(const reported_washout& x);
template <typename Fields>
void decode_fact(Fields& d, reported_washout& x);

// The plan's object; due times are left out, since they follow from the protocol and the start.
// From version 3 on offset_s, of its zone at the start.
[[nodiscard]] json::value encode_fact(const plan_made& x);
// Reads it back, works the due times out anew, and refuses a protocol that cannot be read.
template <typename Fields>
void decode_fact(Fields& d, plan_made& x, frozen_rules& known);

} // namespace qb::inline records
