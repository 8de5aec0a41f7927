// Where the laboratory's store is when nobody says.
#pragma once

#include "core/base/result.hpp"

#include <string>

namespace qb::lab {

// The store in the user's data folder, which is made if `make_folders`. Refuses where the
// environment names no such folder.
[[nodiscard]] result<std::string> usual_store(bool make_folders);

} // namespace qb::lab
