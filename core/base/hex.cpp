// libsodium's, which take the same time for any digits: some are of keys.
#include "core/base/hex.hpp"

#include <sodium.h>

namespace qb {

std::string hex_of(std::string_view bytes) {
  std::string out(2 * bytes.size() + 1, '\0'); // it ends with a zero of its own
  sodium_bin2hex(out.data(), out.size(), reinterpret_cast<const unsigned char*>(bytes.data()),
                 bytes.size());
  out.pop_back();
  return out;
}

std::optional<std::string> bytes_of_hex(std::string_view digits) {
  std::string out(digits.size() / 2, '\0');
  std::size_t size = 0;
  const char* end = nullptr;
  const int bad = sodium_hex2bin(reinterpret_cast<unsigned char*>(out.data()), out.size(),
                                 digits.data(), digits.size(), nullptr, &size, &end);
  if (bad != 0 || size != out.size() || end != digits.data() + digits.size()) return std::nullopt;
  return out;
}

} // namespace qb
