// Lines in, lines out; the algorithms are libsodium's.
#include "core/seal/minisign.hpp"

#include "core/seal/base64.hpp"
#include "core/seal/bytes.hpp"

#include <algorithm>
#include <optional>
#include <sodium.h>

namespace qb::seal {

namespace {

constexpr std::string_view prehashed = "ED";
constexpr std::string_view key_kind = "Ed";
constexpr std::string_view untrusted_head = "untrusted comment: ";
constexpr std::string_view trusted_head = "trusted comment: ";
constexpr std::size_t most_line = 8192;
constexpr std::size_t kind_size = 2;
constexpr std::size_t id_size = sizeof(key_id);

refusal no_signature(const char* where, const char* found, const char* expected) {
  return {refusal_kind::malformed, "", where, found, expected};
}

std::string hash_of(std::string_view bytes) {
  std::string out(crypto_generichash_blake2b_BYTES_MAX, '\0');
  crypto_generichash_blake2b(raw(out), out.size(), raw(bytes), bytes.size(), nullptr, 0);
  return out;
}

std::string joined(std::string_view a, std::string_view b, std::string_view c) {
  std::string out(a);
  return out.append(b).append(c);
}

// The next line without its end; nothing where no line ends any more, or only far away.
std::optional<std::string_view> next_line(std::string_view& rest) {
  const std::size_t end = rest.substr(0, most_line).find('\n');
  if (end == std::string_view::npos) return std::nullopt;
  const std::string_view line = rest.substr(0, end);
  rest.remove_prefix(end + 1);
  return line;
}

bool begins(std::string_view text, std::string_view head) {
  return text.substr(0, head.size()) == head;
}

bool is_one_line(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

} // namespace

named_key named(const public_key& key) {
  std::array<unsigned char, 16> hash{};
  crypto_generichash_blake2b(hash.data(), hash.size(), key.data(), key.size(), nullptr, 0);
  return {taken<id_size>(seen(hash)), key};
}

std::string fingerprint(const key_id& id) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  constexpr unsigned int half = 4;
  constexpr unsigned int low = 15;
  std::string out;
  for (std::size_t i = id.size(); i-- > 0;) {
    out += digits[id[i] >> half];
    out += digits[id[i] & low];
  }
  return out;
}

std::string public_key_text(const named_key& key) {
  return to_base64(joined(key_kind, seen(key.id), seen(key.key)), padding::with);
}

result<named_key> read_public_key(std::string_view text) {
  if (begins(text, untrusted_head)) {
    if (!next_line(text)) text = "";
  }
  while (!text.empty() && text.back() == '\n')
    text.remove_suffix(1);
  const auto bytes = from_base64(text, padding::with);
  if (!bytes || bytes->size() != kind_size + id_size + sizeof(public_key) ||
      !begins(*bytes, key_kind))
    return tl::unexpected(
        no_signature("public key", "something else", "a minisign public key (RW…)"));
  return named_key{taken<id_size>(bytes->substr(kind_size)),
                   taken<sizeof(public_key)>(bytes->substr(kind_size + id_size))};
}

std::string sign_file(std::string_view bytes, const signing_key& key,
                      const std::string& trusted_comment) {
  QB_BELIEVE(is_one_line(trusted_comment));
  const named_key by = named(key.open_half());
  const signature first = sign(hash_of(bytes), key);
  const signature second = sign(joined(seen(first), trusted_comment, ""), key);
  std::string out(untrusted_head);
  out += "signature from key " + fingerprint(by.id) + "\n";
  out += to_base64(joined(prehashed, seen(by.id), seen(first)), padding::with) + "\n";
  out.append(trusted_head).append(trusted_comment).append("\n");
  return out + to_base64(seen(second), padding::with) + "\n";
}

result<file_signature> read_signature(std::string_view text) {
  const auto untrusted = next_line(text);
  const auto first = next_line(text);
  const auto trusted = next_line(text);
  const auto second = next_line(text);
  if (!untrusted || !first || !trusted || !second || !text.empty() ||
      !begins(*untrusted, untrusted_head) || !begins(*trusted, trusted_head))
    return tl::unexpected(
        no_signature("signature", "other lines", "the four lines of a minisign signature"));
  const auto signed_hash = from_base64(*first, padding::with);
  const auto signed_comment = from_base64(*second, padding::with);
  if (!signed_hash || signed_hash->size() != kind_size + id_size + sizeof(signature) ||
      !signed_comment || signed_comment->size() != sizeof(signature))
    return tl::unexpected(no_signature("signature", "lines that are no base64 of that length",
                                       "a minisign signature as it was written"));
  if (!begins(*signed_hash, prehashed))
    return tl::unexpected(no_signature("signature", "another algorithm",
                                       "Ed25519 of the file's BLAKE2b hash (\"ED\")"));
  file_signature out;
  out.id = taken<id_size>(signed_hash->substr(kind_size));
  out.of_hash = taken<sizeof(signature)>(signed_hash->substr(kind_size + id_size));
  out.trusted_comment = std::string(trusted->substr(trusted_head.size()));
  out.of_comment = taken<sizeof(signature)>(*signed_comment);
  return out;
}

result<void> check_signature(std::string_view bytes, const file_signature& s,
                             const named_key& key) {
  if (s.id != key.id)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "signature",
                                  "the key " + fingerprint(s.id),
                                  "the key " + fingerprint(key.id)});
  if (!verifies(hash_of(bytes), s.of_hash, key.key))
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "signature", "other bytes",
                                  "the bytes that were signed"});
  if (!verifies(joined(seen(s.of_hash), s.trusted_comment, ""), s.of_comment, key.key))
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "trusted comment",
                                  "another comment", "the comment that was signed"});
  return {};
}

} // namespace qb::seal
