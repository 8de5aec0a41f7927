// A signing key's secret half in a file that a passphrase opens.
//
// One line of canonical JSON (RFC 8785) with its end:
//   cipher    "xchacha20-poly1305" (draft-irtf-cfrg-xchacha-03, AEAD)
//   format    "quarterbreath-reader-key", version 1
//   kdf       "argon2id" (RFC 9106, version 1.3, one lane, 32 bytes out): passes, memory_kib
//   key       the public half as minisign prints it ("RW…"); its text is the associated data
//   salt      base64, 16 bytes
//   nonce     base64, 24 bytes
//   sealed    base64: the 32-byte seed of RFC 8032, encrypted, and its tag
// The passphrase is as its bytes were typed. Whoever has file and passphrase can sign; whoever has
// the file alone has to try passphrases at that cost.
#pragma once

#include "core/base/result.hpp"
#include "core/seal/minisign.hpp"

#include <string>
#include <string_view>

namespace qb::seal {

// What one try at a passphrase costs.
struct passphrase_cost {
  std::uint64_t passes{0};
  std::uint64_t memory_kib{0};
};

// As libsodium advises for a person who waits (MODERATE); and the least it lets be, for tests.
[[nodiscard]] passphrase_cost usual_cost();
[[nodiscard]] passphrase_cost least_cost();

// Seals the seed. `drawn` is fresh chance: the first 16 bytes are the salt, the next 24 the nonce.
// Refuses (as `machine`) where there is not the memory that the cost asks for.
[[nodiscard]] result<std::string> seal_seed(const secret<32>& seed, std::string_view passphrase,
                                            const secret<64>& drawn, const passphrase_cost& cost);

// The public half, without any passphrase. Refuses what is no such file.
[[nodiscard]] result<named_key> key_of_sealed_seed(std::string_view text);

// Opens it. Refuses what is no such file, a cost beyond libsodium's SENSITIVE (a changed file must
// not exhaust the machine), another passphrase, and a seed whose public half is another; no message
// holds anything of seed or passphrase.
[[nodiscard]] result<secret<32>> open_seed(std::string_view text, std::string_view passphrase);

} // namespace qb::seal
