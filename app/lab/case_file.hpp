// One kit's case out of the store: log or paper sheet, box, tubes, readings, decisions.
#pragma once

#include "app/lab/desk.hpp"
#include "core/lab/case.hpp"

#include <optional>
#include <string>

namespace qb::lab {

// A case with what it was made from.
struct kept_case {
  test_case what;
  bench_kit bench;
  std::optional<read_log_result> log; // none: a paper sheet
  bool rehearsal{false};
};

// What the laboratory brings to its cases: profile, findings, criteria and flags of its assets.
[[nodiscard]] result<case_rules> load_case_rules(const desk& at);

// The case of that kit number or test id: of the log of the test that started last, else of the
// last paper sheet. Practice only where the desk takes it. Refuses a kit of which neither is here,
// and a sheet of a test that the laboratory does not have.
[[nodiscard]] result<kept_case> load_case(const desk& at, const case_rules& rules,
                                          const std::string& kit_or_test);

} // namespace qb::lab
