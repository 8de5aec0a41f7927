// Entering a paper sheet, from a command or within `receive`.
#pragma once

#include "app/lab/context/kit_tests.hpp"
#include "core/receiving/paper.hpp"

#include <set>
#include <string>
#include <vector>

namespace qb::lab {

// What became of a line: kept, or questions that are to be confirmed first.
struct entered_paper {
  std::vector<paper_question> questions; // empty: it is kept
};

// What is entered of a sheet.
struct typed_sheet {
  std::optional<civil_date> tested; // the day where the line has none
  std::string line;
  std::set<std::string> confirmed;
  told_person who; // by sheet or label
};

// Reads the line for that test of the kit and keeps it once every question of it is confirmed. A
// sheet that comes before any log or code is a test of its own.
[[nodiscard]] result<entered_paper> enter_paper_line(lab_context& at, const kept_kit& of,
                                                     std::size_t which, const protocol& test,
                                                     const typed_sheet& sheet);

} // namespace qb::lab
