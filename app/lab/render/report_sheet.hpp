// What stands on a case's report, before any drawing: the case in words, columns and points.
#pragma once

#include "app/lab/context/case_file.hpp"
#include "app/page/report_page.hpp"

namespace qb::lab {

// Everything a page needs of it. It says whether criteria are met, never what a person has.
[[nodiscard]] page::report_sheet report_sheet_of(const kept_case& kept, const lab_profile& profile);

// The curve with all that is marked on it.
[[nodiscard]] page::curve_chart chart_of(const test_case& c);

// Columns, rows, and the notes below them.
void fill_table(const test_case& c, const lab_profile& profile, page::report_sheet& out);

// The findings as they are listed: the weightiest first, many of one rule in one line, what was set
// aside last.
[[nodiscard]] std::vector<page::report_finding> listed_findings(const test_case& c);

} // namespace qb::lab
