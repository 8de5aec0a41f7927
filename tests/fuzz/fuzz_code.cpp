// Any bytes as text that a scanner typed.
// Two readings of one text say the same, and what is read is a result that packs into the same
// bytes.
#include "core/code/code_text.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = test::text_of(data, size);
  const scanned_codes once = read_codes(text);
  const scanned_codes twice = read_codes(text);
  test::promised(once.contents == twice.contents);
  test::promised(once.refused.size() == twice.refused.size());
  (void)looks_scanned(text);
  return 0;
}
