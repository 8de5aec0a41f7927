// libsodium's base64, held to one spelling.
#include "core/seal/base64.hpp"

#include "core/seal/bytes.hpp"

#include <sodium.h>

namespace qb::seal {

namespace {

int variant(padding p) {
  return p == padding::with ? sodium_base64_VARIANT_ORIGINAL
                            : sodium_base64_VARIANT_ORIGINAL_NO_PADDING;
}

} // namespace

std::string to_base64(std::string_view bytes, padding p) {
  std::string out(sodium_base64_encoded_len(bytes.size(), variant(p)), '\0');
  sodium_bin2base64(out.data(), out.size(), raw(bytes), bytes.size(), variant(p));
  out.pop_back(); // the zero that ends a C text
  return out;
}

std::optional<std::string> from_base64(std::string_view text, padding p) {
  std::string out(text.size(), '\0');
  std::size_t size = 0;
  if (sodium_base642bin(raw(out), out.size(), text.data(), text.size(), nullptr, &size, nullptr,
                        variant(p)) != 0)
    return std::nullopt;
  out.resize(size);
  if (to_base64(out, p) != text) return std::nullopt;
  return out;
}

} // namespace qb::seal
