// What the signature beside a log says, in the words of the list and the report.
// It is evidence and no verdict: a log without one, or with one that does not hold, is taken in
// too.
#pragma once

#include "core/base/json.hpp"

#include <optional>
#include <string>

namespace qb::lab {

// What checking the signature beside a log came to.
enum class signature_state {
  none, // no signature came with it
  good, // it holds for these bytes
  bad,  // it does not, or cannot be read
};

// What is known of a log's signature; what is not known is empty.
struct signature_evidence {
  signature_state state{signature_state::none};
  std::string fingerprint; // of the key that signed, where one is named
  std::string key;         // "RW…", with which anyone can check it again
  std::string comment;     // the trusted comment, where the signature holds
  std::string why_bad;
};

// The key stands in the trusted comment. Whoever changes a log can sign it anew with another key:
// what counts is whether the fingerprint is the one on the paper sheet.
[[nodiscard]] signature_evidence evidence_of(const std::string& log_text,
                                             const std::optional<std::string>& signature);

// "good, key fingerprint 4F1C…: proves only 'unchanged since export by whoever held this device'",
// "none", or "DOES NOT MATCH: …".
[[nodiscard]] std::string evidence_text(const signature_evidence& e);

// state ("good", "none", "does-not-match"), fingerprint, key, comment, why, and proves; null where
// not known.
[[nodiscard]] json::value evidence_json(const signature_evidence& e);

} // namespace qb::lab
