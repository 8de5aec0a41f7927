// Findings of the drink's course, of corrections, scorers and warning signs: what was told later.
#pragma once

#include "core/findings/findings.hpp"

#include <vector>

namespace qb::inline findings {

// A drink before tube 1, and what became of it; in the order it was told.
void drink_course_findings(const state& s, const zone& z, std::vector<finding>& out);

// Corrections with what stood before, closings too near each other, who scored, warning signs.
void reported_later_findings(const state& s, const zone& z, std::vector<finding>& out);

// Scores that belong to no tube: due and not given, who scored, warning signs.
void scores_after_findings(const state& s, const clock_reading& now, std::vector<finding>& out);

} // namespace qb::inline findings
