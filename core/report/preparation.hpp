// The preparation's part of a report: beginnings that were confirmed, washouts and their days.
// A file of its own, so that the report's reader finds tubes and preparation apart.
#pragma once

#include "core/report/report.hpp"

namespace qb {

// Fills `beginnings` and `washouts`, against the start that counts: the closing of tube 1, or the
// planned start while there is none. Nothing is filled in where no test was chosen.
void fill_preparation(const state& s, const clock_reading& now, report& out);

} // namespace qb
