// Signing, and holding a signature against what is kept.
#include "app/lab/context/signed_conclusion.hpp"

#include "app/lab/context/printable.hpp"
#include "app/machine/files.hpp"
#include "app/machine/passphrase.hpp"
#include "core/seal/sealed_seed.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

// One line of printable ASCII, which the reader's name need not be.
std::string comment_of(const conclusion& entry) {
  std::string out = fmt::format("quarterbreath conclusion {} of test {} of kit {} at {}",
                                entry.number, entry.mark.test, entry.kit, rfc3339_utc(entry.at));
  std::replace_if(
      out.begin(), out.end(), [](char c) { return c < ' ' || c > '~'; }, '?');
  return out;
}

bool is_text(const json::value& in, const char* field, const std::string& text) {
  const json::value* one = in.find(field);
  return one != nullptr && one->text() != nullptr && *one->text() == text;
}

// Whether the signed bytes are of this very conclusion.
bool says_the_same(const std::string& body, const conclusion& entry) {
  const auto v = json::parse(body);
  const json::value* said = v ? v->find("conclusion") : nullptr;
  if (said == nullptr) return false;
  const json::value* number = said->find("number");
  return is_text(*v, "kit", entry.kit) && is_text(*v, "test_id", entry.mark.test) &&
         number != nullptr && number->integer() != nullptr && *number->integer() == entry.number &&
         is_text(*said, "words", entry.words) && is_text(*said, "by", entry.by) &&
         is_text(*said, "at", rfc3339_utc(entry.at)) &&
         is_text(*said, "kind", conclusion_kind_text(entry.kind));
}

reader_mark state_of(const conclusion_signature_row& row, const seal::named_key& key,
                     const own_laboratory& own, const conclusion& entry) {
  const auto read = seal::read_signature(row.signature);
  if (!read || !seal::check_signature(row.body, *read, key) || !says_the_same(row.body, entry) ||
      read->trusted_comment != comment_of(entry))
    return reader_mark::bad;
  const bool theirs = std::any_of(own.told.begin(), own.told.end(), [&](const person_row& p) {
    return p.name == entry.by && p.key == row.key;
  });
  return theirs ? reader_mark::good : reader_mark::unknown;
}

result<seal::signing_key> opened_key(const person_at_work& reader,
                                     const std::string& passphrase_file) {
  const auto text = read_file(reader.key_file);
  if (!text) return tl::unexpected(text.error());
  const auto key = seal::key_of_sealed_seed(*text);
  if (!key) return tl::unexpected(in_file(key.error(), reader.key_file));
  if (seal::public_key_text(*key) != reader.key)
    return tl::unexpected(refusal{refusal_kind::out_of_range, reader.key_file, "key",
                                  "the key " + seal::fingerprint(key->id),
                                  "the key that `people` shows for this reader"});
  const auto typed = ask_passphrase(passphrase_file, "Passphrase of your key");
  if (!typed) return tl::unexpected(typed.error());
  const auto seed = seal::open_seed(*text, typed->text());
  if (!seed) return tl::unexpected(in_file(seed.error(), reader.key_file));
  return seal::signing_key(*seed);
}

signed_evidence evidence_of(const conclusion_signature_row& row, const own_laboratory& own,
                            const conclusion& entry) {
  signed_evidence out{reader_mark::bad, "", row.body, row.signature, row.key};
  const auto key = seal::read_public_key(row.key);
  if (!key) return out;
  // From the key and not from the signature, which may name any.
  out.fingerprint = seal::fingerprint(seal::named(key->key).id);
  out.state = state_of(row, *key, own, entry);
  return out;
}

} // namespace

result<std::optional<reader_signature>> sign_as_reader(const lab_context& at, const test_case& c,
                                                       const received_kit& received,
                                                       const conclusion& entry,
                                                       const std::string& passphrase_file) {
  const auto reader = acting_person(at.own().list(), at.options().by, work_act::conclude);
  if (!reader) return tl::unexpected(reader.error());
  if (reader->key.empty()) return std::optional<reader_signature>();
  const auto key = opened_key(*reader, passphrase_file);
  if (!key) return tl::unexpected(key.error());
  reader_signature out;
  out.row.kit = entry.kit;
  out.row.test = entry.mark.test;
  out.row.number = entry.number;
  out.row.body = conclusion_bytes(c, received, at.profile().id, entry);
  out.row.signature = seal::sign_file(out.row.body, *key, comment_of(entry));
  out.row.key = seal::public_key_text(seal::named(key->open_half()));
  out.holds = evidence_of(out.row, at.own(), entry);
  return std::optional(std::move(out));
}

result<signed_evidence> signature_of(const receiving_store& store, const own_laboratory& own,
                                     const conclusion& entry) {
  const auto rows = store.signatures_of(entry.mark.test, entry.number);
  if (!rows) return tl::unexpected(rows.error());
  return rows->empty() ? signed_evidence{} : evidence_of(rows->back(), own, entry);
}

std::string signed_words(const signed_evidence& e) {
  switch (e.state) {
  case reader_mark::none: return "Not signed with a key.";
  case reader_mark::good:
    return fmt::format("Signed with the reader's key {}; the signature holds.", e.fingerprint);
  case reader_mark::unknown:
    return fmt::format("SIGNED WITH A KEY THAT IS NOT THIS READER'S ({}).", e.fingerprint);
  case reader_mark::bad: return "ITS SIGNATURE DOES NOT HOLD for what is kept.";
  }
  QB_BELIEVE(false);
  return "";
}

result<std::string> concluded_line(const receiving_store& store, const own_laboratory& own,
                                   const conclusion& last) {
  const auto seal = signature_of(store, own, last);
  if (!seal) return tl::unexpected(seal.error());
  return fmt::format("Concluded by {} at {}, report {}. {}\n", printable(last.by),
                     rfc3339_utc(last.at), last.number, signed_words(*seal));
}

json::value signed_json(const signed_evidence& e) {
  static constexpr const char* states[] = {"none", "good", "unknown-key", "does-not-hold"};
  return json::object{{"state", states[static_cast<std::size_t>(e.state)]},
                      {"key", json::text_or_null(e.key)},
                      {"fingerprint", json::text_or_null(e.fingerprint)},
                      {"words", signed_words(e)}};
}

} // namespace qb::lab
