// Reports and lists for people at a terminal of 100 columns.
#pragma once

#include "app/lab/evidence.hpp"
#include "core/lab/report.hpp"
#include "core/store/lab_store.hpp"

#include <string>
#include <vector>

namespace qb::lab {

[[nodiscard]] std::string list_text(const std::vector<log_row>& rows);
[[nodiscard]] std::string report_text(const report& r, const signature_evidence& evidence);

} // namespace qb::lab
