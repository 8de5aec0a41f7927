// Every byte, every letter it may have been. What stands before the byte is hashed once.
#include "core/record/mended_row.hpp"

#include <algorithm>
#include <array>
#include <sodium.h>

namespace qb::inline records {

namespace {

using digest = std::array<unsigned char, crypto_hash_sha256_BYTES>;

constexpr std::size_t longest_tried = 1200; // about a tenth of a second

std::optional<digest> digest_of(const std::string& hex) {
  digest out{};
  std::size_t bytes = 0;
  const int bad =
      sodium_hex2bin(out.data(), out.size(), hex.data(), hex.size(), nullptr, &bytes, nullptr);
  if (bad != 0 || bytes != out.size()) return std::nullopt;
  return out;
}

void add(crypto_hash_sha256_state& sum, const std::string& text, std::size_t from, std::size_t n) {
  crypto_hash_sha256_update(&sum, reinterpret_cast<const unsigned char*>(text.data()) + from, n);
}

} // namespace

std::optional<std::string> mended_row(const std::string& before, const std::string& damaged,
                                      const std::string& hash) {
  const auto wanted = digest_of(hash);
  if (!wanted || damaged.size() > longest_tried) return std::nullopt;
  crypto_hash_sha256_state so_far{};
  crypto_hash_sha256_init(&so_far);
  add(so_far, before + "\n", 0, before.size() + 1);
  std::string tried = damaged;
  for (std::size_t i = 0; i < damaged.size(); ++i) {
    for (char c = ' '; c <= '~'; ++c) {
      tried[i] = c;
      crypto_hash_sha256_state sum = so_far;
      add(sum, tried, i, tried.size() - i);
      digest got{};
      crypto_hash_sha256_final(&sum, got.data());
      if (std::equal(got.begin(), got.end(), wanted->begin())) return tried;
    }
    tried[i] = damaged[i];
    add(so_far, damaged, i, 1);
  }
  return std::nullopt;
}

} // namespace qb::inline records
