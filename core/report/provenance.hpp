// Where a test's log comes from: how each version that came is signed, which of them counts, and
// what a reader should know of that. One pure function answers it, and import, list, report and
// whoever else asks hold to it.
//
// A signature proves only that nothing changed since the export by whoever held that key. The print
// that is shown comes from the key itself, never from the id that a signature gives itself; and a
// signature whose comment names another test, kit or end of the record is of that one, not of this.
//
// Which version counts does not depend on the order in which they came. Of versions that contradict
// each other the better signed one does, until a named person says which; a version that only grows
// another is the same story, told on. One that is wrongly signed counts only where no other came.
#pragma once

#include "core/findings/findings.hpp"
#include "core/report/signed_words.hpp"
#include "core/seal/minisign.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline reports {

// What checking a signature came to.
enum class signature_state {
  none,     // no signature came with it
  good,     // it holds for these bytes
  practice, // it holds, by the key that everybody has, and the test is no practice
  another,  // it holds, and its comment is of another test or of another moment of this one
  bad,      // it does not hold, or cannot be read
};

// What is known of a log's signature; what is not known is empty.
struct signature_evidence {
  signature_state state{signature_state::none};
  std::string fingerprint; // of the key that the comment names, worked out from that key
  std::string key;         // "RW…", with which anyone can check it again
  std::string comment;     // the trusted comment, where the signature holds
  std::string why_bad;
};

// The key stands in the trusted comment. Whoever changes a log can sign it anew with another key:
// what counts is whether the fingerprint is the one on the paper sheet.
[[nodiscard]] signature_evidence evidence_of(const signed_log& log,
                                             const std::optional<std::string>& signature);

// Whether it shows a key that not everybody has.
[[nodiscard]] inline bool holds(const signature_evidence& e) {
  return e.state == signature_state::good;
}

// One version of a test's log, with what came beside these very bytes.
struct kept_version {
  std::string digest; // SHA-256 of the bytes: which version is meant
  std::string bytes;
  read_log_result log;
  std::vector<std::string> signatures;
};

// A named person's word on which of them counts. `seen` are the versions that were here then.
struct version_choice {
  std::string digest;
  std::vector<std::string> seen;
  std::string by;
  std::string reason;
};

// What follows from all versions of one test.
struct provenance {
  std::size_t counts{0};                // the version that counts
  std::vector<std::size_t> story;       // the versions it grew from and itself, by their events
  std::vector<signature_evidence> each; // of every version, the best of its signatures
  std::vector<finding> findings;        // of the version that counts
  [[nodiscard]] const signature_evidence& signature() const { return each[counts]; }
};

// Of one version at least, all of one test, each digest once. The last choice counts.
[[nodiscard]] provenance provenance_of(const std::vector<kept_version>& versions,
                                       const std::vector<version_choice>& choices = {});

} // namespace qb::inline reports
