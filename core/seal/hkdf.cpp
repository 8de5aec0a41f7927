// Extract, then expand, as section 2 of the RFC has it.
#include "core/seal/hkdf.hpp"

#include "core/base/result.hpp"
#include "core/seal/bytes.hpp"

#include <algorithm>
#include <sodium.h>

namespace qb::seal {

namespace {

constexpr std::size_t hash_size = crypto_auth_hmacsha256_BYTES;
constexpr std::size_t most_blocks = 255;

// One HMAC in the making, wiped at its end.
class hmac {
public:
  explicit hmac(std::string_view key) {
    crypto_auth_hmacsha256_init(&state_, raw(key), key.size());
  }
  hmac(const hmac&) = delete;
  hmac& operator=(const hmac&) = delete;
  ~hmac() { wipe(&state_, sizeof state_); }
  hmac& add(std::string_view bytes) {
    crypto_auth_hmacsha256_update(&state_, raw(bytes), bytes.size());
    return *this;
  }
  [[nodiscard]] secret<hash_size> end() {
    secret<hash_size> out;
    crypto_auth_hmacsha256_final(&state_, out.bytes.data());
    return out;
  }

private:
  crypto_auth_hmacsha256_state state_{};
};

} // namespace

secret<32> hmac_sha256(std::string_view key, std::string_view bytes) {
  return hmac(key).add(bytes).end();
}

void hkdf_sha256(std::string_view key, std::string_view salt, std::string_view purpose,
                 std::span<unsigned char> out) {
  QB_BELIEVE(out.size() <= most_blocks * hash_size);
  const secret<hash_size> extracted = hmac_sha256(salt, key);
  secret<hash_size> block;
  std::size_t done = 0;
  for (unsigned int n = 1; done < out.size(); ++n) {
    const char counter = static_cast<char>(n);
    hmac next(seen(extracted.bytes));
    if (n > 1) next.add(seen(block.bytes));
    block = next.add(purpose).add({&counter, 1}).end();
    const std::size_t part = std::min(hash_size, out.size() - done);
    std::copy_n(block.bytes.begin(), part, out.begin() + static_cast<std::ptrdiff_t>(done));
    done += part;
  }
}

secret<32> derived_key(std::string_view key, std::string_view salt, std::string_view purpose) {
  secret<32> out;
  hkdf_sha256(key, salt, purpose, out.bytes);
  return out;
}

} // namespace qb::seal
