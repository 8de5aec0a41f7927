// Each step of sealing and signing against its published vectors.
// The same values are confirmed by readers nobody here wrote in tests/outside/run_sealed.
#include "core/seal/age_keys.hpp"
#include "core/seal/base64.hpp"
#include "core/seal/bech32.hpp"
#include "core/seal/bytes.hpp"
#include "core/seal/hkdf.hpp"
#include "core/seal/signing.hpp"
#include "tests/unit/seal/recipient_text.hpp"
#include "tests/unit/seal/vectors.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <new>
#include <sodium.h>

using namespace qb;
using namespace qb::seal;
using namespace qb::seal::test;

TEST_CASE("base64 is that of RFC 4648, with and without padding") {
  const json::value all = vectors("base64");
  for (const json::value& v : *all.find("items")->items()) {
    const std::string coded = text_of(v, "coded");
    const std::string bare = coded.substr(0, coded.find('='));
    CHECK(to_base64(text_of(v, "plain"), padding::with) == coded);
    CHECK(to_base64(text_of(v, "plain"), padding::without) == bare);
    CHECK(from_base64(coded, padding::with).value() == text_of(v, "plain"));
    CHECK(from_base64(bare, padding::without).value() == text_of(v, "plain"));
    CHECK((coded == bare || !from_base64(bare, padding::with)));
    CHECK((coded == bare || !from_base64(coded, padding::without)));
  }
}

TEST_CASE("a second spelling of the same bytes is no base64") {
  for (const char* text : {"Zh==", "Zm9=", "Zg===", "Zg==\n", " Zg==", "Zg= =", "Zm-_", "Z", "=",
                           "Zg=="
                           "Zg=="})
    CHECK_FALSE(from_base64(text, padding::with));
  for (const char* text : {"Zh", "Zm9v\n", "Zm 9v", "Z", "Zm9vZ", "Zg=="})
    CHECK_FALSE(from_base64(text, padding::without));
}

TEST_CASE("Bech32 takes what BIP-173 calls valid and writes it again") {
  const json::value all = vectors("bech32");
  for (const json::value& v : *all.find("valid")->items()) {
    INFO(*v.text());
    const auto read = read_bech32(*v.text());
    REQUIRE(read);
    std::string small = *v.text();
    for (char& c : small)
      c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    std::string prefix = read->prefix;
    for (char& c : prefix)
      c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    CHECK(write_bech32(prefix, read->groups) == small);
  }
}

TEST_CASE("Bech32 refuses what BIP-173 calls invalid, and repeats nothing of it") {
  const json::value all = vectors("bech32");
  for (const json::value& v : *all.find("invalid_hex")->items()) {
    INFO(*v.text());
    const auto read = read_bech32(from_hex(*v.text()));
    REQUIRE_FALSE(read);
    CHECK(sentence(read.error()).find(from_hex(*v.text())) == std::string::npos);
  }
}

TEST_CASE("every single wrong character of a key shows") {
  const std::string key = recipient_text(recipient_of(identity{}));
  for (std::size_t at = 4; at < key.size(); ++at) {
    for (const char c : std::string("qpzry9x8gf2tvdw0s3jn54khce6mua7l")) {
      std::string wrong = key;
      wrong[at] = c;
      CHECK(read_recipient(wrong).has_value() == (wrong == key));
    }
  }
}

TEST_CASE("groups of five bits come back as bytes, and left-over bits do not") {
  for (const std::string bytes : {"", "a", "ab", "abc", "abcd", "abcde", "\xFF\xFF\xFF"})
    CHECK(from_groups(to_groups(bytes)).value() == bytes);
  CHECK_FALSE(from_groups(std::string("\x1F\x1F", 2))); // the last two bits are not zero
  CHECK_FALSE(from_groups(std::string("\0\0\0", 3)));   // a whole group too many
}

TEST_CASE("HKDF and HMAC are those of RFC 5869 and RFC 4231") {
  const json::value hkdf = vectors("hkdf");
  for (const json::value& v : *hkdf.find("items")->items()) {
    std::string out(bytes_of(v, "out").size(), '\0');
    hkdf_sha256(bytes_of(v, "key"), bytes_of(v, "salt"), bytes_of(v, "purpose"),
                {raw(out), out.size()});
    CHECK(to_hex(out) == text_of(v, "out"));
  }
  const json::value hmac = vectors("hmac_sha256");
  for (const json::value& v : *hmac.find("items")->items())
    CHECK(to_hex(seen(hmac_sha256(bytes_of(v, "key"), bytes_of(v, "text")).bytes)) ==
          text_of(v, "out"));
}

TEST_CASE("a recipient is the X25519 public key of RFC 7748") {
  const json::value all = vectors("x25519");
  const json::array& pairs = *all.find("items")->items();
  for (const json::value& v : pairs) {
    const identity i{secret<32>(taken<32>(bytes_of(v, "secret")))};
    CHECK(to_hex(seen(recipient_of(i).point)) == text_of(v, "public"));
  }
  std::string shared(crypto_scalarmult_BYTES, '\0');
  REQUIRE(crypto_scalarmult(raw(shared), raw(bytes_of(pairs[0], "secret")),
                            raw(bytes_of(pairs[1], "public"))) == 0);
  CHECK(to_hex(shared) == text_of(all, "shared"));
}

TEST_CASE("a signature is the Ed25519 of RFC 8032, and of nothing else") {
  const json::value all = vectors("ed25519");
  for (const json::value& v : *all.find("items")->items()) {
    const signing_key key(secret<32>(taken<32>(bytes_of(v, "seed"))));
    const std::string text = bytes_of(v, "text");
    CHECK(to_hex(seen(key.open_half())) == text_of(v, "public"));
    signature s = sign(text, key);
    CHECK(to_hex(seen(s)) == text_of(v, "signature"));
    CHECK(verifies(text, s, key.open_half()));
    CHECK_FALSE(verifies(text + "x", s, key.open_half()));
    CHECK_FALSE(verifies(text, s, public_key{}));
    s[0] ^= 1U;
    CHECK_FALSE(verifies(text, s, key.open_half()));
  }
}

TEST_CASE("the library's ChaCha20-Poly1305 and BLAKE2b are those of RFC 8439 and RFC 7693") {
  const json::value aead = vectors("chacha20_poly1305");
  for (const json::value& v : *aead.find("items")->items()) {
    const std::string plain = bytes_of(v, "plain");
    const std::string with = bytes_of(v, "with");
    std::string out(plain.size() + crypto_aead_chacha20poly1305_ietf_ABYTES, '\0');
    crypto_aead_chacha20poly1305_ietf_encrypt(raw(out), nullptr, raw(plain), plain.size(),
                                              raw(with), with.size(), nullptr,
                                              raw(bytes_of(v, "nonce")), raw(bytes_of(v, "key")));
    CHECK(to_hex(out) == text_of(v, "sealed"));
  }
  const json::value blake = vectors("blake2b");
  for (const json::value& v : *blake.find("items")->items()) {
    const std::string text = bytes_of(v, "text");
    std::string out(crypto_generichash_blake2b_BYTES_MAX, '\0');
    crypto_generichash_blake2b(raw(out), out.size(), raw(text), text.size(), nullptr, 0);
    CHECK(to_hex(out) == text_of(v, "out"));
  }
}

TEST_CASE("a secret is wiped where it ends") {
  alignas(secret<32>) std::array<unsigned char, sizeof(secret<32>)> place{};
  auto* there = new (place.data()) secret<32>();
  there->bytes.fill(7);
  CHECK(place[31] == 7);
  there->~secret();
  CHECK(std::all_of(place.begin(), place.end(), [](unsigned char b) { return b == 0; }));
}
