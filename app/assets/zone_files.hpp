// Time zones from the machine's zone folder.
// Read through here only, so that core never opens a file.
#pragma once

#include "core/time/zone.hpp"

#include <string>

namespace qb::inline assets {

// The zone of that IANA name from the system's zone files. Refuses a name that is not one, or that
// the machine does not know, naming what was expected.
[[nodiscard]] result<zone> load_zone(const std::string& name);

// The version of the machine's zone data ("2026f"), for the record; empty where it does not say.
[[nodiscard]] std::string zone_data_version();

} // namespace qb::inline assets
