// Any bytes as a protocol file.
// What is read holds what the reader promises: samples at rising offsets from 0.
#include "core/protocol/protocol.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto p = read_protocol(test::text_of(data, size));
  if (!p) return 0;
  test::promised(!p->offsets.empty() && p->offsets.front().count() == 0);
  for (std::size_t i = 1; i < p->offsets.size(); ++i)
    test::promised(p->offsets[i] > p->offsets[i - 1]);
  return 0;
}
