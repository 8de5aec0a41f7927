// libsodium's Ed25519.
#include "core/seal/signing.hpp"

#include "core/base/result.hpp"
#include "core/seal/bytes.hpp"

#include <sodium.h>

namespace qb::seal {

static_assert(crypto_sign_SECRETKEYBYTES == sizeof(secret<64>));

signing_key::signing_key(const secret<32>& seed) {
  QB_BELIEVE(crypto_sign_seed_keypair(public_.data(), secret_.bytes.data(), seed.bytes.data()) ==
             0);
}

signature sign(std::string_view bytes, const signing_key& key) {
  signature out{};
  QB_BELIEVE(crypto_sign_detached(out.data(), nullptr, raw(bytes), bytes.size(),
                                  key.secret_.bytes.data()) == 0);
  return out;
}

bool verifies(std::string_view bytes, const signature& s, const public_key& key) {
  return crypto_sign_verify_detached(s.data(), raw(bytes), bytes.size(), key.data()) == 0;
}

} // namespace qb::seal
