// The codes that the laboratory's FHIR may use, read from its folder of assets.
#pragma once

#include "app/lab/context/console.hpp"
#include "core/fhir/codes.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// assets/codes/*.json in the order of their names. Refuses what a strict reader refuses, and a
// folder that is not there or has none.
[[nodiscard]] result<fhir::code_list> load_codes(const std::string& assets);

// `codes check FILE...`: one line a file, "FILE: ok" or what is wrong; answers the exit status.
[[nodiscard]] int check_code_files(const std::vector<std::string>& files, const console& to);

} // namespace qb::lab
