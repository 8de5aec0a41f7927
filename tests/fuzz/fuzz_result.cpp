// Any bytes as the packed result that a code holds.
// What is read is packed into the very same bytes: there is one form of each result.
#include "core/code/packed_result.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;
using namespace qb::code;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = test::text_of(data, size);
  const auto read = unpack(bytes);
  if (read) test::promised(with_seal(pack(*read), read->seal) == bytes);
  return 0;
}
