// Any bytes as a criterion, flags, findings, labels or a kit code.
// Small files of a laboratory's own, which come by post and mail.
#include "core/curve/criteria.hpp"
#include "core/curve/flags.hpp"
#include "core/findings/rules.hpp"
#include "core/protocol/kit_code.hpp"
#include "core/sheet/label_sheet.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = test::text_of(data, size);
  (void)read_criterion(text);
  (void)read_flag_rules(text);
  (void)read_finding_rules(text);
  (void)read_label_sheet(text);
  (void)read_kit_code(text);
  return 0;
}
