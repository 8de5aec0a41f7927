// A case as JSON, as `report` and `judge KIT` write it; its members are those of
// tests/outside/ajv/report.schema.json, held by ajv.
// Numbers are exact decimals; a moment of a log is RFC 3339 with its offset, one of a paper sheet
// the clock on the wall ("2027-04-06 07:30").
#pragma once

#include "app/lab/context/case_file.hpp"

#include <string>

namespace qb::lab {

// One object on one line, with its line's end. `profile` is the laboratory's.
[[nodiscard]] std::string report_json(const kept_case& kept, const lab_profile& profile);

} // namespace qb::lab
