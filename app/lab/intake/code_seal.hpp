// What the seal of a result by code shows, and how the code stands beside its log.
// A code holds a signature and the key's id, not the key: it can be checked only against a key that
// came with a log. What was checked, with which key, and what that proves is said, never more.
#pragma once

#include "app/store/lab_store.hpp"
#include "core/base/json.hpp"
#include "core/code/result_of_events.hpp"
#include "core/record/log.hpp"

#include <optional>
#include <string>

namespace qb::lab {

// What checking the seal of a code came to.
enum class seal_state {
  none,      // the code has no seal
  unchecked, // it has one, and no key to check it with is here
  good,      // it holds for these bytes by that key
  bad,       // it does not
};

// How the seal's key stands to the key of the test's own log.
enum class log_key {
  not_here, // no log of the test is here, or it has no good signature
  same,
  other,
};

// What is known of a code's seal, and of the key that it was checked with.
struct seal_evidence {
  seal_state state{seal_state::none};
  std::string fingerprint;   // of the key that the seal names
  std::string key_from_test; // the test whose log brought the key; empty: no such log is here
  log_key against_log{log_key::not_here};
  std::string log_fingerprint; // of the log's key, where it is another
};

// Checks the seal with any key of that id that came with a good signature beside a kept log: first
// of the code's own test. Refuses what the store refuses.
[[nodiscard]] result<seal_evidence> seal_evidence_of(const lab_store& store,
                                                     const code::packed_result& code);

// "good, by the key that signed this test's log, 4F1C…; proves only: …", "none: …".
[[nodiscard]] std::string seal_words(const seal_evidence& e);

// state ("none", "not-checked", "good", "does-not-match"), fingerprint, key_from_test, log_key
// ("same", "other"), words; null where not known.
[[nodiscard]] json::value seal_json(const seal_evidence& e);

// A code that is kept beside the log of its test.
struct code_beside {
  code::packed_result code;
  std::uint64_t log_events{0};
  code::comparison compared;
  seal_evidence seal;
};

// Nothing where no code of that test is kept.
[[nodiscard]] result<std::optional<code_beside>>
code_beside_of(const lab_store& store, const std::string& test_id, const read_log_result& log);

// "here too, made at event 61 of 63; it agrees with the log as it stood then. Its seal: …"
[[nodiscard]] std::string beside_words(const code_beside& c);

// events, agrees (null: the log ends before), differences, seal.
[[nodiscard]] json::value beside_json(const std::optional<code_beside>& c);

} // namespace qb::lab
