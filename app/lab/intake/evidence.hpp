// What the signature beside a log says, in the words of the list and the report.
// It is evidence and no verdict: a log without one, or with one that does not hold, is taken in
// too.
#pragma once

#include "core/base/json.hpp"
#include "core/report/provenance.hpp"

#include <string>

namespace qb::lab {

// "good, key fingerprint 4F1C…: proves only 'unchanged since export by whoever held this device'",
// "none", "BY THE PRACTICE KEY, …", "SIGNED FOR ANOTHER: …", or "DOES NOT MATCH: …".
[[nodiscard]] std::string evidence_text(const signature_evidence& e);

// state ("good", "none", "practice-key", "for-another", "does-not-match"), fingerprint, key,
// comment, why, and proves; null where not known.
[[nodiscard]] json::value evidence_json(const signature_evidence& e);

} // namespace qb::lab
