// Finding a key by its id among the logs' signatures, and checking with it.
#include "app/lab/intake/code_seal.hpp"

#include "app/lab/intake/read_code.hpp"
#include "app/lab/intake/versions.hpp"
#include "core/seal/minisign.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

constexpr const char* proves = "unchanged since it was made by whoever held this device";

// A key with the test whose log it signed.
struct found_key {
  seal::named_key key;
  std::string test_id;
};

} // namespace

result<seal_evidence> seal_evidence_of(const lab_store& store, const code::packed_result& code) {
  seal_evidence out;
  if (!code.seal) return out;
  out.state = seal_state::unchecked;
  out.fingerprint = seal::fingerprint(code.seal->key_id);
  const auto all = store.signatures();
  if (!all) return tl::unexpected(all.error());
  std::optional<found_key> with;
  std::string asked; // the test whose keys were looked at last
  for (const kept_signature& s : *all) {
    const bool own = s.test_id == code.test_id;
    const auto read = seal::read_signature(s.text);
    if (s.test_id == asked || !read || (!own && (with || read->id != code.seal->key_id))) continue;
    asked = s.test_id;
    const auto keys = keys_of_test(store, s.test_id);
    if (!keys) return tl::unexpected(keys.error());
    for (const seal::named_key& key : *keys) {
      const bool same = key.id == code.seal->key_id;
      if (own && out.against_log != log_key::same)
        out.against_log = same ? log_key::same : log_key::other;
      if (own && !same) out.log_fingerprint = seal::fingerprint(key.id);
      if (same && (own || !with)) with = found_key{key, s.test_id};
    }
  }
  if (out.against_log == log_key::same) out.log_fingerprint.clear();
  if (!with) return out;
  out.key_from_test = with->test_id;
  const std::string was_signed = code::to_be_signed(pack(code), code.seal->key_id);
  out.state = seal::verifies(was_signed, code.seal->signature, with->key.key) ? seal_state::good
                                                                              : seal_state::bad;
  return out;
}

std::string seal_words(const seal_evidence& e) {
  if (e.state == seal_state::none)
    return "none; that it was read without a fault is all that is known of it";
  std::string out;
  if (e.state == seal_state::unchecked)
    out = fmt::format("by key {}, not checked: no log that this key signed is here, and a code "
                      "does not hold its key",
                      e.fingerprint);
  const std::string whose = e.against_log == log_key::same
                                ? std::string("the key that signed this test's log")
                                : "a key that signed another log here, of test " + e.key_from_test;
  if (e.state == seal_state::good)
    out = fmt::format("good, by {}, fingerprint {}; proves only: {}", whose, e.fingerprint, proves);
  if (e.state == seal_state::bad)
    out = fmt::format("DOES NOT MATCH, though it names {}, fingerprint {}", whose, e.fingerprint);
  if (e.against_log == log_key::other)
    out += "; this test's log is signed by ANOTHER KEY, fingerprint " + e.log_fingerprint;
  return out;
}

json::value seal_json(const seal_evidence& e) {
  const char* state = "none";
  if (e.state == seal_state::unchecked) state = "not-checked";
  if (e.state == seal_state::good) state = "good";
  if (e.state == seal_state::bad) state = "does-not-match";
  json::value against;
  if (e.against_log == log_key::same) against = "same";
  if (e.against_log == log_key::other) against = "other";
  return json::object{{"state", state},
                      {"fingerprint", json::text_or_null(e.fingerprint)},
                      {"key_from_test", json::text_or_null(e.key_from_test)},
                      {"log_key", against},
                      {"words", seal_words(e)}};
}

result<std::optional<code_beside>>
code_beside_of(const lab_store& store, const std::string& test_id, const read_log_result& log) {
  const auto rows = store.find_codes(which_tests::of_test_id, test_id);
  if (!rows) return tl::unexpected(rows.error());
  if (rows->empty()) return std::optional<code_beside>();
  auto code = kept_code(rows->front());
  if (!code) return tl::unexpected(code.error());
  auto seal = seal_evidence_of(store, *code);
  if (!seal) return tl::unexpected(seal.error());
  code_beside out{std::move(*code), log.events.size(), {}, std::move(*seal)};
  out.compared = code::compare_with_log(out.code, log.events);
  return std::optional(std::move(out));
}

std::string beside_words(const code_beside& c) {
  std::string out = fmt::format("here too, made at event {}", c.code.events);
  if (c.compared.log_is_older) {
    out += fmt::format("; the log here ends before that, at event {}", c.log_events);
  } else if (c.compared.differences.empty()) {
    out += fmt::format(" of {}; it agrees with the log as it stood then", c.log_events);
  } else {
    out += "; IT DIFFERS FROM THE LOG: ";
    for (const std::string& one : c.compared.differences)
      out += (&one == &c.compared.differences.front() ? "" : "; ") + one;
  }
  return out + ". Its seal: " + seal_words(c.seal);
}

json::value beside_json(const std::optional<code_beside>& c) {
  if (!c) return nullptr;
  json::value agrees;
  if (!c->compared.log_is_older) agrees = c->compared.differences.empty();
  return json::object{{"events", static_cast<std::int64_t>(c->code.events)},
                      {"agrees", agrees},
                      {"differences", json::list_of(c->compared.differences)},
                      {"seal", seal_json(c->seal)}};
}

} // namespace qb::lab
