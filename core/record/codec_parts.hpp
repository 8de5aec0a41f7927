// The small pieces that several kinds of fact share, written and read side by side. What reads
// asks `fields`, or `canonical_fields`, in the same words.
#pragma once

#include "core/base/canonical_fields.hpp"
#include "core/base/json_fields.hpp"
#include "core/session/event.hpp"
#include "core/session/limits.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace qb::inline records {

// A frozen file stands in an event as the JSON it is, not as a text within a text.
[[nodiscard]] json::value embedded(std::string_view canonical_text);
// Its canonical text again.
[[nodiscard]] std::string read_embedded(json::fields& d, const char* key);
[[nodiscard]] std::string_view read_embedded(json::canonical_fields& d, const char* key);

// A calendar date, YYYY-MM-DD; it is written by date_text.
template <typename Fields>
[[nodiscard]] civil_date read_date(Fields& d, const char* key);

// A text that is read on at once, as `text`.
[[nodiscard]] inline std::string text_to_read(json::fields& d, const char* key) {
  return d.text(key);
}
[[nodiscard]] inline std::string_view text_to_read(json::canonical_fields& d, const char* key) {
  return d.plain_text(key);
}

// An instant in RFC 3339 UTC; it is written by rfc3339_utc.
template <typename Fields>
[[nodiscard]] instant read_instant(Fields& d, const char* key);

// How a time is known, under "how"; it is written by key_of.
template <typename Fields>
[[nodiscard]] how_known read_how(Fields& d);

// A mark that is there, and then true, or is not there.
template <typename Fields>
[[nodiscard]] bool read_mark(Fields& d, const char* key);

// What somebody who agreed to something of a medicine is, under "said_by"; left out where nobody
// said.
void add_said_by(json::object& out, const std::optional<releaser>& said_by);
template <typename Fields>
[[nodiscard]] std::optional<releaser> read_said_by(Fields& d);

// A sample's number.
[[nodiscard]] json::value number_of(sample_number n);
template <typename Fields>
[[nodiscard]] sample_number read_number(Fields& d, const char* key = "sample");

// Scores as a list of objects: id, and score, null where it was skipped; read under "scores".
[[nodiscard]] json::value encode_scores(const std::vector<symptom_score>& scores);
template <typename Fields>
[[nodiscard]] std::vector<symptom_score> read_scores(Fields& d);

// Texts as a list.
template <typename Fields>
[[nodiscard]] std::vector<std::string> read_list(Fields& d, const char* key);

} // namespace qb::inline records
