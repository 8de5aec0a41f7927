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

// A desk with one case on it.
struct opened_case {
  desk at;
  case_rules rules;
  kept_case kept;
};

// Opens the store, which must be there, and the case of that kit number or test id by the
// laboratory's profile, findings, criteria and flags: of the log of the test that started last,
// else of the last paper sheet. Practice only where the desk takes it. Refuses a kit of which
// neither is here, and a sheet of a test that the laboratory does not have.
[[nodiscard]] result<opened_case> open_case(const shared_options& shared,
                                            const desk_options& options,
                                            const std::string& kit_or_test);

} // namespace qb::lab
