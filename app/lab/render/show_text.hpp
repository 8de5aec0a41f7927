// What `list` and `show` write for people at a terminal of 100 columns.
#pragma once

#include "app/lab/intake/code_seal.hpp"
#include "app/lab/intake/evidence.hpp"
#include "app/store/lab_store.hpp"
#include "core/report/report.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// A line a test under a line of headings; and one test in full.
[[nodiscard]] std::string list_text(const std::vector<log_row>& rows);
// `beside`: a code that is kept beside the log.
[[nodiscard]] std::string show_text(const report& r, const signature_evidence& evidence,
                                    const std::optional<code_beside>& beside = std::nullopt);

} // namespace qb::lab
