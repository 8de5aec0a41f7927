// Derived as age derives its keys.
#include "core/seal/practice_key.hpp"

#include "core/seal/hkdf.hpp"

namespace qb::seal {

signing_key practice_signing_key() {
  return signing_key(derived_key(practice_secret, "", "signing"));
}

} // namespace qb::seal
