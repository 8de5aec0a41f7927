// Any bytes as text that a scanner typed.
// Two readings of one text say the same, and a content that was read gives the same codes again.
#include "core/code/code_text.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;
using namespace qb::code;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = test::text_of(data, size);
  const scanned_codes once = read_codes(text);
  const scanned_codes twice = read_codes(text);
  test::promised(once.contents == twice.contents);
  test::promised(once.refused.size() == twice.refused.size());
  (void)looks_scanned(text);
  for (const std::string& content : once.contents) {
    const auto texts = code_texts(content);
    test::promised(texts.has_value());
    std::string lines;
    for (const std::string& line : *texts)
      lines += line + "\n";
    const scanned_codes again = read_codes(lines);
    test::promised(again.contents == std::vector{content} && again.refused.empty());
  }
  return 0;
}
