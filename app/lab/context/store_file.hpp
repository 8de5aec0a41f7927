// Where the laboratory's store is when nobody says.
#pragma once

#include "core/base/result.hpp"

#include <string>

namespace qb::lab {

// The store in the folder `data`, or where that is empty in the user's data folder; it is made if
// `make_folders`. Refuses where neither is known.
[[nodiscard]] result<std::string> usual_store(const std::string& data, bool make_folders);

} // namespace qb::lab
