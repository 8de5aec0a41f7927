// What `list` and `show` write as JSON, for scripts: stable keys, whole numbers, instants in RFC
// 3339.
//
// A test in `list`: test_id, kit_number, protocol, started (tube 1 closed, else the planned start;
// UTC), rehearsal, matches_own_record, tubes_filled, tubes, events, head.
// A test in `show`: test_id, kit_number, rehearsal, matches_own_record, events, head, program,
// name, birth_date (YYYY-MM-DD), doctor, laboratory, protocol, protocol_title, zone, planned_start,
// tube_1_closed, drink_start, drink_end, drank_all, and
//   tubes     number, due, closed, how ("observed", "told", "estimated"), late_s (elapsed, cut to
//             whole seconds, negative before the due time), standing ("not-yet", "missed", "early",
//             "on-time", "late"), scores (by symptom id; null where skipped or not asked), comment
//   after     scores that belong to no tube: when ("after-last", "later"), given, scores, comment
//   findings  app/lab/render/finding_json.hpp
//   signature state ("good", "none", "does-not-match"), fingerprint, key, comment, why, proves
//   code      null where none came; events, agrees, differences, seal
//   (app/lab/intake/code_seal.hpp)
// What is not known is null. Both stand in {"tests": [...]}.
#pragma once

#include "app/lab/intake/code_seal.hpp"
#include "app/lab/intake/evidence.hpp"
#include "app/store/lab_store.hpp"
#include "core/base/json.hpp"
#include "core/report/report.hpp"

namespace qb::lab {

// A test in `list`; a test in `show`, with the code that is kept beside its log.
[[nodiscard]] json::value list_json(const log_row& row);
[[nodiscard]] json::value show_json(const report& r, const signature_evidence& evidence,
                                    const std::optional<code_beside>& beside = std::nullopt);

} // namespace qb::lab
