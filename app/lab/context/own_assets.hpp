// The laboratory's own protocols and profiles, to hold against those frozen in a log.
#pragma once

#include "core/report/report.hpp"

#include <string>

namespace qb::lab {

// All of them in the folder of assets. Refuses a file that its strict reader refuses; a folder that
// is not there is refused only where it was asked for by name.
[[nodiscard]] result<own_files> load_own_files(const std::string& assets, bool asked_for);

} // namespace qb::lab
