// Any bytes as a sealed file, with a key at hand.
// Nothing but a whole file that was sealed to that key opens. The key is the demonstration's own.
#include "core/seal/age.hpp"
#include "core/seal/age_header.hpp"
#include "core/seal/minisign.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view file = test::text_of(data, size);
  static const std::vector<seal::identity> mine = [] {
    const auto read = seal::read_identity_file(
        "AGE-SECRET-KEY-149Y5RGHCWKEHWEEVQV2EC9DCGTKERZZSPY2C99U38J638A253JDSC22788\n");
    return read ? *read : std::vector<seal::identity>{};
  }();
  test::promised(!mine.empty());
  (void)seal::read_age_header(file);
  (void)seal::open_sealed(file, mine);
  (void)seal::read_identity_file(file);
  (void)seal::read_signature(file);
  return 0;
}
