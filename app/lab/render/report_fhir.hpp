// What the laboratory adds to a test's FHIR resources, from its case: gases, criteria, conclusion.
// One place, so that the report's bundle and the warehouse's lines say the same.
#pragma once

#include "app/lab/context/lab_context.hpp"
#include "core/case/case.hpp"
#include "core/fhir/bundle.hpp"

namespace qb::lab {

// Gases of tubes that were blown, as they are judged; the criteria's answers where the test is
// judged; the reader's words where nothing came after them, else the report is preliminary.
[[nodiscard]] fhir::laboratory_results report_results(const lab_context& at, const test_case& c);

} // namespace qb::lab
