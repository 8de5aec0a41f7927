// The small pieces that several kinds of fact share, written and read side by side.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/session/event.hpp"
#include "core/session/limits.hpp"

#include <string>
#include <vector>

namespace qb {

// A frozen file stands in an event as the JSON it is, not as a text within a text.
[[nodiscard]] json::value embedded(const std::string& canonical_text);
// Its canonical text again.
[[nodiscard]] std::string read_embedded(json::fields& d, const char* key);

// A calendar date, YYYY-MM-DD; it is written by date_text.
[[nodiscard]] civil_date read_date(json::fields& d, const char* key);

// An instant in RFC 3339 UTC; it is written by rfc3339_utc.
[[nodiscard]] instant read_instant(json::fields& d, const char* key);

// How a time is known, under "how"; it is written by key_of.
[[nodiscard]] how_known read_how(json::fields& d);

// A mark that is there, and then true, or is not there.
[[nodiscard]] bool read_mark(json::fields& d, const char* key);

// What somebody who agreed to something of a medicine is, under "said_by"; left out where nobody
// said.
void add_said_by(json::object& out, const std::optional<releaser>& said_by);
[[nodiscard]] std::optional<releaser> read_said_by(json::fields& d);

// A sample's number.
[[nodiscard]] json::value number_of(sample_number n);
[[nodiscard]] sample_number read_number(json::fields& d, const char* key = "sample");

// Scores as a list of objects: id, and score, null where it was skipped; read under "scores".
[[nodiscard]] json::value encode_scores(const std::vector<symptom_score>& scores);
[[nodiscard]] std::vector<symptom_score> read_scores(json::fields& d);

// Texts as a list.
[[nodiscard]] std::vector<std::string> read_list(json::fields& d, const char* key);

} // namespace qb
