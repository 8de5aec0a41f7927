// libsodium's Argon2id and XChaCha20-Poly1305.
#include "core/seal/sealed_seed.hpp"

#include "core/base/json_fields.hpp"
#include "core/seal/base64.hpp"
#include "core/seal/bytes.hpp"

#include <sodium.h>
#include <utility>

namespace qb::seal {

namespace {

constexpr const char* format_name = "quarterbreath-reader-key";
constexpr const char* cipher_name = "xchacha20-poly1305";
constexpr const char* kdf_name = "argon2id";
constexpr std::size_t salt_size = crypto_pwhash_SALTBYTES;
constexpr std::size_t nonce_size = crypto_aead_xchacha20poly1305_ietf_NPUBBYTES;
constexpr std::size_t sealed_size = 32 + crypto_aead_xchacha20poly1305_ietf_ABYTES;
constexpr std::uint64_t kib = 1024;
static_assert(salt_size + nonce_size <= sizeof(secret<64>));

refusal no_key(std::string found, std::string expected) {
  return {refusal_kind::malformed, "", "key", std::move(found), std::move(expected)};
}

result<secret<32>> stretched(std::string_view passphrase, std::string_view salt,
                             const passphrase_cost& cost) {
  secret<32> out;
  const std::uint64_t memory = cost.memory_kib * kib;
  // A machine of 32 bits has not even the numbers for so much.
  if (std::in_range<std::size_t>(memory) &&
      crypto_pwhash(out.bytes.data(), out.bytes.size(), passphrase.data(), passphrase.size(),
                    raw(salt), cost.passes, static_cast<std::size_t>(memory),
                    crypto_pwhash_ALG_ARGON2ID13) == 0)
    return out;
  return tl::unexpected(refusal{refusal_kind::machine, "", "key", "not the memory to open it",
                                "as much as the file asks for"});
}

// A sealed file's parts, read and no more.
struct parts {
  std::string key_text;
  named_key key;
  passphrase_cost cost;
  std::string salt;
  std::string nonce;
  std::string sealed;
};

std::string bytes_of(json::fields& f, const char* name, std::size_t size) {
  const auto bytes = from_base64(f.text(name), padding::with);
  if (bytes && bytes->size() == size) return *bytes;
  f.refuse(name, "something else", "base64 of " + std::to_string(size) + " bytes");
  return {};
}

result<parts> read_parts(std::string_view text) {
  const auto v = json::parse(text);
  if (!v || v->members() == nullptr)
    return tl::unexpected(no_key("something else", "a reader's sealed key"));
  json::fields f(*v, "");
  parts out;
  (void)f.choice("format", {format_name});
  (void)f.integer("version", 1, 1);
  (void)f.choice("cipher", {cipher_name});
  (void)f.choice("kdf", {kdf_name});
  const auto most = static_cast<std::int64_t>(crypto_pwhash_MEMLIMIT_SENSITIVE / kib);
  out.cost.passes = static_cast<std::uint64_t>(
      f.integer("passes", crypto_pwhash_OPSLIMIT_MIN, crypto_pwhash_OPSLIMIT_SENSITIVE));
  out.cost.memory_kib = static_cast<std::uint64_t>(
      f.integer("memory_kib", crypto_pwhash_MEMLIMIT_MIN / std::int64_t{kib}, most));
  out.key_text = f.text("key");
  const auto key = read_public_key(out.key_text);
  if (!key) f.absorb(key.error());
  if (key) out.key = *key;
  out.salt = bytes_of(f, "salt", salt_size);
  out.nonce = bytes_of(f, "nonce", nonce_size);
  out.sealed = bytes_of(f, "sealed", sealed_size);
  if (const auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

} // namespace

passphrase_cost usual_cost() {
  return {crypto_pwhash_OPSLIMIT_MODERATE, crypto_pwhash_MEMLIMIT_MODERATE / kib};
}

passphrase_cost least_cost() {
  return {crypto_pwhash_OPSLIMIT_MIN, crypto_pwhash_MEMLIMIT_MIN / kib};
}

result<std::string> seal_seed(const secret<32>& seed, std::string_view passphrase,
                              const secret<64>& drawn, const passphrase_cost& cost) {
  const std::string_view chance = seen(drawn.bytes);
  const std::string_view salt = chance.substr(0, salt_size);
  const std::string_view nonce = chance.substr(salt_size, nonce_size);
  const auto key = stretched(passphrase, salt, cost);
  if (!key) return tl::unexpected(key.error());
  const std::string open = public_key_text(named(signing_key(seed).open_half()));
  std::string sealed(sealed_size, '\0');
  QB_BELIEVE(crypto_aead_xchacha20poly1305_ietf_encrypt(
                 raw(sealed), nullptr, seed.bytes.data(), seed.bytes.size(), raw(open), open.size(),
                 nullptr, raw(nonce), key->bytes.data()) == 0);
  return json::canonical(json::object{
             {"format", format_name},
             {"version", 1},
             {"cipher", cipher_name},
             {"kdf", kdf_name},
             {"passes", static_cast<std::int64_t>(cost.passes)},
             {"memory_kib", static_cast<std::int64_t>(cost.memory_kib)},
             {"key", open},
             {"salt", to_base64(salt, padding::with)},
             {"nonce", to_base64(nonce, padding::with)},
             {"sealed", to_base64(sealed, padding::with)},
         }) +
         "\n";
}

result<named_key> key_of_sealed_seed(std::string_view text) {
  const auto read = read_parts(text);
  if (!read) return tl::unexpected(read.error());
  return read->key;
}

result<secret<32>> open_seed(std::string_view text, std::string_view passphrase) {
  const auto read = read_parts(text);
  if (!read) return tl::unexpected(read.error());
  const auto key = stretched(passphrase, read->salt, read->cost);
  if (!key) return tl::unexpected(key.error());
  secret<32> seed;
  if (crypto_aead_xchacha20poly1305_ietf_decrypt(
          seed.bytes.data(), nullptr, nullptr, raw(read->sealed), read->sealed.size(),
          raw(read->key_text), read->key_text.size(), raw(read->nonce), key->bytes.data()) != 0)
    return tl::unexpected(no_key("another passphrase, or a changed file",
                                 "the passphrase that the key was sealed with"));
  if (signing_key(seed).open_half() == read->key.key) return seed;
  return tl::unexpected(no_key("the secret half of another key", "that of the key it names"));
}

} // namespace qb::seal
