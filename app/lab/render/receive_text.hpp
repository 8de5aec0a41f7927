// The lines that `receive` answers with.
#pragma once

#include "app/lab/context/lab_context.hpp"
#include "core/base/json.hpp"

#include <string>

namespace qb::lab {

// What matters first when a kit comes: who, which test, when and how long ago, whether it was
// completed, whether stopping or vomiting was told, whether the log is here. One line.
[[nodiscard]] std::string kit_line(const lab_context& at, const received_kit& received,
                                   const known_kit& known);

// What stands against box and record, a line each, and until when its result is due.
[[nodiscard]] std::string box_lines(const lab_context& at, const received_kit& received,
                                    const known_kit& known);

// Both for scripts: kit, protocol, name, birth_date, tested, age_days, tubes_taken, tubes, told
// (rules of stopping and the like), record ("log", "code", "paper" or "none"), rehearsal, arrived,
// due, findings of box, sheet and readings as they were found, record_findings (of the record,
// those from which more follows than a note; both app/lab/render/finding_json.hpp),
// signature_fault.
[[nodiscard]] json::value receive_json(const lab_context& at, const received_kit& received,
                                       const known_kit& known);

} // namespace qb::lab
