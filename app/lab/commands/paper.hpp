// Entering a paper sheet, from a command or within `receive`.
#pragma once

#include "app/lab/context/lab_context.hpp"
#include "core/receiving/paper.hpp"

#include <set>
#include <string>
#include <vector>

namespace qb::lab {

// What became of a line: kept, or questions that are to be confirmed first.
struct entered_paper {
  std::vector<paper_question> questions; // empty: it is kept
};

// Reads the line for that test and keeps it once every question of it is in `confirmed`. `tested`
// is the day where the line has none.
[[nodiscard]] result<entered_paper> enter_paper_line(lab_context& at, const std::string& kit,
                                                     const protocol& test,
                                                     const std::optional<civil_date>& tested,
                                                     const std::string& line,
                                                     const std::set<std::string>& confirmed);

} // namespace qb::lab
