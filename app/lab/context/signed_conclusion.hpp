// A reader's signature under a conclusion: made with a key that a passphrase opens, kept beside the
// conclusion, checked wherever the conclusion is shown.
#pragma once

#include "app/lab/context/lab_context.hpp"
#include "core/base/json.hpp"
#include "core/case/conclusion_bytes.hpp"
#include "core/seal/minisign.hpp"

#include <optional>
#include <string>

namespace qb::lab {

// How the signature of a conclusion stands.
enum class reader_mark {
  none,    // not signed
  good,    // signed by the key that its reader had
  unknown, // it holds, by a key that the list of people never had for that name
  bad,     // it does not hold for what is kept
};

// A conclusion's signature as it was kept, and what checking it came to.
struct signed_evidence {
  reader_mark state{reader_mark::none};
  std::string fingerprint; // of the key itself
  std::string body;        // the bytes that were signed
  std::string signature;   // minisign's four lines
  std::string key;         // "RW…"
};

// A signature that is not kept yet, and how it stands.
struct reader_signature {
  conclusion_signature_row row;
  signed_evidence holds;
};

// Signs that conclusion of the case with its reader's key: to be kept with it, in one transaction
// (`put_issued`), since a signature without its conclusion is of nothing, and a conclusion must not
// lack the signature that its reader meant to give. Asks for the passphrase
// (app/machine/passphrase.hpp). Answers nothing where they have no key. Refuses a key file that is
// not there, another passphrase, and a file of another key than the one the store has for that
// person.
[[nodiscard]] result<std::optional<reader_signature>>
sign_as_reader(const lab_context& at, const test_case& c, const received_kit& received,
               const conclusion& entry, const std::string& passphrase_file);

// Of that conclusion, found by its test and number. Refuses what the store refuses.
[[nodiscard]] result<signed_evidence>
signature_of(const receiving_store& store, const own_laboratory& own, const conclusion& entry);

// "Signed with the reader's key 4F1C…; the signature holds."
[[nodiscard]] std::string signed_words(const signed_evidence& e);

// What was concluded last, by whom and how it is signed, as a line.
[[nodiscard]] result<std::string> concluded_line(const receiving_store& store,
                                                 const own_laboratory& own, const conclusion& last);

// state ("none", "good", "unknown-key", "does-not-hold"), key, fingerprint, words.
[[nodiscard]] json::value signed_json(const signed_evidence& e);

} // namespace qb::lab
