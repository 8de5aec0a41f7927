// libsodium's sealing with the row's place beside it, and its key stream alone.
#include "core/seal/sealed_row.hpp"

#include "core/seal/bytes.hpp"

#include <sodium.h>

namespace qb::seal {

namespace {

constexpr std::size_t nonce_size = crypto_aead_xchacha20poly1305_ietf_NPUBBYTES;
constexpr std::size_t tag_size = crypto_aead_xchacha20poly1305_ietf_ABYTES;
static_assert(sizeof(row_nonce) == nonce_size);
static_assert(sizeof(secret<32>) == crypto_aead_xchacha20poly1305_ietf_KEYBYTES);

} // namespace

std::string seal_row(std::string_view text, std::string_view place, const secret<32>& key,
                     const row_nonce& nonce) {
  std::string out(seen(nonce));
  out.resize(nonce_size + text.size() + tag_size);
  crypto_aead_xchacha20poly1305_ietf_encrypt(raw(out) + nonce_size, nullptr, raw(text), text.size(),
                                             raw(place), place.size(), nullptr, nonce.data(),
                                             key.bytes.data());
  return out;
}

std::optional<std::string> open_row(std::string_view sealed, std::string_view place,
                                    const secret<32>& key) {
  if (sealed.size() < nonce_size + tag_size) return std::nullopt;
  std::string out(sealed.size() - nonce_size - tag_size, '\0');
  const int bad = crypto_aead_xchacha20poly1305_ietf_decrypt(
      raw(out), nullptr, nullptr, raw(sealed.substr(nonce_size)), sealed.size() - nonce_size,
      raw(place), place.size(), raw(sealed), key.bytes.data());
  return bad == 0 ? std::optional<std::string>(std::move(out)) : std::nullopt;
}

std::optional<std::string> open_with_nonce_mended(std::string sealed, std::string_view place,
                                                  const secret<32>& key) {
  if (sealed.size() < nonce_size + tag_size) return std::nullopt;
  constexpr unsigned int values = 256;
  for (std::size_t i = 0; i < nonce_size; ++i) {
    const char was = sealed[i];
    for (unsigned int value = 0; value < values; ++value) {
      sealed[i] = static_cast<char>(value);
      if (auto text = open_row(sealed, place, key)) return text;
    }
    sealed[i] = was;
  }
  return std::nullopt;
}

std::string unproved_row(std::string_view sealed, const secret<32>& key) {
  if (sealed.size() < nonce_size + tag_size) return {};
  const std::string_view text = sealed.substr(nonce_size, sealed.size() - nonce_size - tag_size);
  std::string out(text.size(), '\0');
  // The stream's first block is the tag's own key.
  crypto_stream_xchacha20_xor_ic(raw(out), raw(text), text.size(), raw(sealed), 1,
                                 key.bytes.data());
  return out;
}

} // namespace qb::seal
