// A recipient as its text "age1…", for tests that need one of a made-up key: the programs only read
// recipients, age-keygen writes them.
#pragma once

#include "core/seal/age_keys.hpp"
#include "core/seal/bech32.hpp"
#include "core/seal/bytes.hpp"

namespace qb::seal::test {

[[nodiscard]] inline std::string recipient_text(const recipient& r) {
  return write_bech32("age", to_groups(seen(r.point)));
}

} // namespace qb::seal::test
