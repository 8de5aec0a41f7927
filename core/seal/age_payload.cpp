// Counter, last mark, ChaCha20-Poly1305.
#include "core/seal/age_payload.hpp"

#include "core/seal/bytes.hpp"

#include <algorithm>
#include <sodium.h>

namespace qb::seal {

namespace {

constexpr std::size_t piece_size = 65536;
constexpr std::size_t tag_size = crypto_aead_chacha20poly1305_ietf_ABYTES;
using piece_nonce = std::array<unsigned char, crypto_aead_chacha20poly1305_ietf_NPUBBYTES>;

// Eleven bytes of the piece's number, the highest first, then whether it is the last.
piece_nonce nonce_of(std::size_t number, bool last) {
  constexpr unsigned int byte_bits = 8;
  constexpr std::size_t byte_mask = 255;
  piece_nonce out{};
  for (std::size_t i = out.size() - 1; i-- > 0 && number > 0; number >>= byte_bits)
    out[i] = static_cast<unsigned char>(number & byte_mask);
  out.back() = last ? 1 : 0;
  return out;
}

refusal no_piece(std::size_t number, const char* found) {
  return {refusal_kind::malformed, "", "piece " + std::to_string(number + 1), found,
          "an age file as it was sealed"};
}

} // namespace

std::string seal_pieces(std::string_view plain, const secret<32>& key) {
  std::string out;
  const std::size_t pieces = std::max<std::size_t>(1, (plain.size() + piece_size - 1) / piece_size);
  out.resize(plain.size() + pieces * tag_size);
  std::size_t at = 0;
  for (std::size_t number = 0; number < pieces; ++number) {
    const std::string_view piece = plain.substr(number * piece_size, piece_size);
    const piece_nonce nonce = nonce_of(number, number + 1 == pieces);
    crypto_aead_chacha20poly1305_ietf_encrypt(raw(out) + at, nullptr, raw(piece), piece.size(),
                                              nullptr, 0, nullptr, nonce.data(), key.bytes.data());
    at += piece.size() + tag_size;
  }
  return out;
}

result<std::string> open_pieces(std::string_view sealed, const secret<32>& key) {
  std::string out(sealed.size(), '\0');
  std::size_t opened = 0;
  for (std::size_t number = 0;; ++number) {
    const std::string_view piece = sealed.substr(0, piece_size + tag_size);
    sealed.remove_prefix(piece.size());
    if (piece.size() < tag_size) return tl::unexpected(no_piece(number, "a file that is cut off"));
    if (piece.size() == tag_size && number > 0)
      return tl::unexpected(no_piece(number, "an empty piece after a full one"));
    const bool last = sealed.empty();
    const piece_nonce nonce = nonce_of(number, last);
    if (crypto_aead_chacha20poly1305_ietf_decrypt(raw(out) + opened, nullptr, nullptr, raw(piece),
                                                  piece.size(), nullptr, 0, nonce.data(),
                                                  key.bytes.data()) != 0)
      return tl::unexpected(no_piece(number, "bytes that were changed, cut off or added"));
    opened += piece.size() - tag_size;
    if (last) break;
  }
  out.resize(opened);
  return out;
}

} // namespace qb::seal
