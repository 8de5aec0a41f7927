// Any bytes as a laboratory's profile.
// A profile that is read has bounds in their order.
#include "core/protocol/profile.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto p = read_profile(test::text_of(data, size));
  if (p) test::promised(p->bounds.on_time <= p->bounds.last_call && !p->id.empty());
  return 0;
}
