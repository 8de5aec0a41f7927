// One kit's case out of the store: log or paper sheet, box, tubes, readings, decisions.
#pragma once

#include "app/lab/context/kit_tests.hpp"
#include "app/lab/context/lab_context.hpp"
#include "app/lab/context/signed_conclusion.hpp"
#include "app/lab/intake/code_seal.hpp"
#include "app/lab/intake/evidence.hpp"
#include "core/case/case.hpp"
#include "core/case/worklist.hpp"

#include <optional>
#include <string>

namespace qb::lab {

// A case with what it was made from.
struct kept_case {
  test_case what;
  received_kit received;
  std::optional<read_log_result> log; // none: a code or a paper sheet
  signature_evidence signature;       // of the log
  std::optional<code_beside> beside;  // a code kept with the log
  seal_evidence seal;                 // of the code, where there is no log
  bool rehearsal{false};
  known_kit known;    // what the case is of
  kept_kit looked_at; // its kit as it was when it was read; this test's own rows are `received`
  std::string mark{}; // of the profile (app/lab/context/own_laboratory.hpp)
  signed_evidence reader_seal{}; // of the conclusion, where there is one
};

// What the laboratory has at hand, with one case opened.
struct opened_case {
  lab_context at;
  case_rules rules;
  kept_case kept;
};

// What the laboratory brings to its cases: profile, findings, criteria and flags of its assets.
[[nodiscard]] result<case_rules> load_case_rules(const lab_context& at);

// The case of a kit by what is known of it. Refuses a kit without a record, a log in which no test
// was chosen, and a sheet of a test that the laboratory does not have.
[[nodiscard]] result<test_case> case_of_known(const lab_context& at, const case_rules& rules,
                                              const received_kit& received, const known_kit& known);

// What the day's list says of a kit: by its case, so that list and report cannot disagree. It holds
// pointers to `received` and `known`.
[[nodiscard]] kit_facts facts_of(const lab_context& at, const case_rules& rules,
                                 const received_kit& received, const known_kit& known);

// Opens the store, which must be there, and the case of that kit number or test id by the
// laboratory's profile, findings, criteria and flags: of its log, else of the result by code, else
// of the last paper sheet. Practice only where it was asked for. Refuses a number that several
// tests bear (`find_test`), a kit of which neither is here, and a sheet of a test that the
// laboratory does not have.
[[nodiscard]] result<opened_case> open_case(const shared_options& shared,
                                            const lab_context_options& options,
                                            const std::string& kit_or_test);

} // namespace qb::lab
