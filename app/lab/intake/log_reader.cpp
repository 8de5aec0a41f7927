// OpenSSL's SHA-256, which knows the processor's own, for the reader of sound logs.
#include "app/lab/intake/log_reader.hpp"

#include "core/base/hex.hpp"
#include "core/seal/bytes.hpp"
#include <array>
#include <memory>
#include <openssl/evp.h>

namespace qb::lab {

namespace {

struct closer {
  void operator()(EVP_MD_CTX* c) const { EVP_MD_CTX_free(c); }
  void operator()(EVP_MD* m) const { EVP_MD_free(m); }
};

// Fetched once: that costs more than a digest.
struct sha256 {
  std::unique_ptr<EVP_MD, closer> kind{EVP_MD_fetch(nullptr, "SHA256", nullptr)};
  std::unique_ptr<EVP_MD_CTX, closer> running{EVP_MD_CTX_new()};

  std::string operator()(std::initializer_list<std::string_view> texts) const {
    std::array<unsigned char, EVP_MAX_MD_SIZE> bytes{};
    unsigned int size = 0;
    bool good = kind && running && EVP_DigestInit_ex2(running.get(), kind.get(), nullptr) == 1;
    for (const std::string_view text : texts)
      good = good && EVP_DigestUpdate(running.get(), text.data(), text.size()) == 1;
    good = good && EVP_DigestFinal_ex(running.get(), bytes.data(), &size) == 1;
    if (!good) return {}; // is no hash, so that nothing is taken for sound by it
    return hex_of(seal::seen(bytes).substr(0, size));
  }
};

} // namespace

log_reader::log_reader()
    : at_once_(
          [one = std::make_shared<const sha256>()](const auto& texts) { return (*one)(texts); }) {}

result<sound_log> log_reader::read(const std::string& text) {
  if (auto sound = at_once_.read(text)) return std::move(*sound);
  auto log = read_log(text);
  if (!log) return tl::unexpected(log.error());
  state folded = fold_events(log->events);
  return sound_log{std::move(*log), std::move(folded)};
}

} // namespace qb::lab
