// The file's key, wrapped for one recipient and found again.
#include "core/seal/age.hpp"

#include "core/seal/age_header.hpp"
#include "core/seal/age_payload.hpp"
#include "core/seal/base64.hpp"
#include "core/seal/bytes.hpp"
#include "core/seal/hkdf.hpp"

#include <optional>
#include <sodium.h>

namespace qb::seal {

namespace {

constexpr std::string_view x25519 = "X25519";
constexpr std::string_view password = "scrypt";
constexpr std::string_view wrap_purpose = "age-encryption.org/v1/X25519";
constexpr std::size_t key_size = 32;
constexpr std::size_t file_key_size = 16;
constexpr std::size_t nonce_size = 16;
constexpr std::size_t wrapped_size = file_key_size + crypto_aead_chacha20poly1305_ietf_ABYTES;

using point = std::array<unsigned char, key_size>;
using wrap_nonce = std::array<unsigned char, crypto_aead_chacha20poly1305_ietf_NPUBBYTES>;

refusal not_sealed_right(std::string found) {
  return {refusal_kind::malformed, "", "head", std::move(found), "an age file as it was sealed"};
}

// The key that wraps the file's key between `scalar` and `theirs`; nothing where their point is
// one of the few that give the same secret to everybody.
std::optional<secret<key_size>> wrap_key(const secret<key_size>& scalar, const point& theirs,
                                         const point& share, const point& to) {
  secret<key_size> shared;
  if (crypto_scalarmult(shared.bytes.data(), scalar.bytes.data(), theirs.data()) != 0)
    return std::nullopt;
  const std::string salt = std::string(seen(share)).append(seen(to));
  return derived_key(seen(shared.bytes), salt, wrap_purpose);
}

secret<key_size> code_of(const secret<file_key_size>& file_key, std::string_view covered) {
  const secret<key_size> key = derived_key(seen(file_key.bytes), "", "header");
  return hmac_sha256(seen(key.bytes), covered);
}

secret<key_size> payload_key(const secret<file_key_size>& file_key, std::string_view nonce) {
  return derived_key(seen(file_key.bytes), nonce, "payload");
}

// The file's key, where this stanza is for that identity; a refusal where the stanza is broken.
result<std::optional<secret<file_key_size>>> unwrap(const stanza& s, const identity& by) {
  const auto share = s.arguments.size() == 1 ? from_base64(s.arguments[0], padding::without)
                                             : std::optional<std::string>();
  if (!share || share->size() != key_size || s.body.size() != wrapped_size)
    return tl::unexpected(not_sealed_right("an X25519 stanza of another form"));
  const point theirs = taken<key_size>(*share);
  const auto key = wrap_key(by.scalar, theirs, theirs, recipient_of(by).point);
  if (!key) return tl::unexpected(not_sealed_right("an X25519 share that hides nothing"));
  secret<file_key_size> out;
  const wrap_nonce zero{};
  if (crypto_aead_chacha20poly1305_ietf_decrypt(out.bytes.data(), nullptr, nullptr, raw(s.body),
                                                s.body.size(), nullptr, 0, zero.data(),
                                                key->bytes.data()) != 0)
    return std::optional<secret<file_key_size>>();
  return std::optional(out);
}

result<secret<file_key_size>> find_file_key(const age_header& head,
                                            const std::vector<identity>& by) {
  std::optional<secret<file_key_size>> found;
  for (const stanza& s : head.stanzas) {
    if (s.kind == password && head.stanzas.size() > 1)
      return tl::unexpected(not_sealed_right("a password beside other recipients"));
    if (s.kind != x25519) continue;
    for (const identity& one : by) {
      const auto key = unwrap(s, one);
      if (!key) return tl::unexpected(key.error());
      if (*key && !found) found = *key;
    }
  }
  if (found) return *found;
  return tl::unexpected(refusal{refusal_kind::missing, "", "",
                                by.empty() ? no_identity_given : "a file sealed to another key",
                                by.empty() ? "an identity that opens it"
                                           : "one sealed to this identity's recipient"});
}

} // namespace

sealing_chance chance_from(const secret<64>& bytes) {
  const std::string_view all = seen(bytes.bytes);
  return {secret<file_key_size>(taken<file_key_size>(all)),
          secret<key_size>(taken<key_size>(all.substr(file_key_size))),
          taken<nonce_size>(all.substr(file_key_size + key_size))};
}

sealing_chance chance_for(const secret<64>& drawn, std::string_view plain) {
  const secret<key_size> salt = hmac_sha256(seen(drawn.bytes), plain);
  secret<64> all;
  hkdf_sha256(seen(drawn.bytes), seen(salt.bytes), "quarterbreath sealing", all.bytes);
  return chance_from(all);
}

result<std::string> seal_to(const recipient& to, std::string_view plain,
                            const sealing_chance& chance) {
  point share{};
  QB_BELIEVE(crypto_scalarmult_base(share.data(), chance.share.bytes.data()) == 0);
  const auto key = wrap_key(chance.share, to.point, share, to.point);
  if (!key)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "recipient",
                                  "a key that hides nothing", "one that age-keygen made"});
  stanza s{std::string(x25519), {to_base64(seen(share), padding::without)}, {}};
  s.body.resize(wrapped_size);
  const wrap_nonce zero{};
  crypto_aead_chacha20poly1305_ietf_encrypt(raw(s.body), nullptr, chance.file_key.bytes.data(),
                                            file_key_size, nullptr, 0, nullptr, zero.data(),
                                            key->bytes.data());
  std::string out = covered_text({s});
  const secret<key_size> code = code_of(chance.file_key, out);
  out += " " + to_base64(seen(code.bytes), padding::without) + "\n";
  out += seen(chance.nonce);
  return out + seal_pieces(plain, payload_key(chance.file_key, seen(chance.nonce)));
}

result<std::string> open_sealed(std::string_view file, const std::vector<identity>& by) {
  const auto head = read_age_header(file);
  if (!head) return tl::unexpected(head.error());
  const auto file_key = find_file_key(*head, by);
  if (!file_key) return tl::unexpected(file_key.error());
  const secret<key_size> code = code_of(*file_key, file.substr(0, head->covered));
  if (sodium_memcmp(code.bytes.data(), head->code.data(), head->code.size()) != 0)
    return tl::unexpected(not_sealed_right("a head that was changed"));
  file.remove_prefix(head->size);
  if (file.size() < nonce_size)
    return tl::unexpected(not_sealed_right("a file that is cut off after its head"));
  return open_pieces(file.substr(nonce_size), payload_key(*file_key, file.substr(0, nonce_size)));
}

bool looks_sealed(std::string_view file) {
  for (const std::string_view head : {std::string_view("age-encryption.org/"),
                                      std::string_view("-----BEGIN AGE ENCRYPTED FILE-----")})
    if (file.substr(0, head.size()) == head) return true;
  return false;
}

} // namespace qb::seal
