// Wiping, by the library that knows how.
#include "core/seal/secret.hpp"

#include <sodium.h>

namespace qb::seal {

void wipe(void* at, std::size_t size) {
  sodium_memzero(at, size);
}

} // namespace qb::seal
