// The fields of what is told later: of the drink, corrections, who scores, scores of no tube,
// warning signs.
#pragma once

#include "core/base/canonical_fields.hpp"
#include "core/base/json_fields.hpp"
#include "core/session/event.hpp"

namespace qb::inline records {

// Each pair writes the object "data" of its kind and reads it back; a refusal stays in the fields.
// started, how.
[[nodiscard]] json::value encode_fact(const reported_drink& x);
template <typename Fields>
void decode_fact(Fields& d, reported_drink& x);
// what, kept, when, how, words.
[[nodiscard]] json::value encode_fact(const reported_drink_trouble& x);
template <typename Fields>
void decode_fact(Fields& d, reported_drink_trouble& x);
// corrects, field ("time", "tube", "score"), reason, and by field: time and how; really; symptom
// and score (left out where it was not to be scored).
[[nodiscard]] json::value encode_fact(const corrected& x);
template <typename Fields>
void decode_fact(Fields& d, corrected& x);
// self, who.
[[nodiscard]] json::value encode_fact(const reported_scorer& x);
template <typename Fields>
void decode_fact(Fields& d, reported_scorer& x);
// when ("after-last", "later"), scores (empty: put off), comment.
[[nodiscard]] json::value encode_fact(const reported_symptoms_after& x);
template <typename Fields>
void decode_fact(Fields& d, reported_symptoms_after& x);
// sample, what (empty: taken back), words; from version 3 on.
[[nodiscard]] json::value encode_fact(const reported_spoil& x);
template <typename Fields>
void decode_fact(Fields& d, reported_spoil& x);
// lost, complete, ask_again (rules of questions).
[[nodiscard]] json::value encode_fact(const record_salvaged& x);
template <typename Fields>
void decode_fact(Fields& d, record_salvaged& x);
// sample, present, and after (as `when` above) where they belong to scores of no tube.
[[nodiscard]] json::value encode_fact(const reported_red_flags& x);
template <typename Fields>
void decode_fact(Fields& d, reported_red_flags& x);

} // namespace qb::inline records
