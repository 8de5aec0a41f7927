// The part of a profile that is about judging gases.
#pragma once

#include "core/protocol/judging_choices.hpp"
#include "core/protocol/rule_reader.hpp"

namespace qb::inline protocols {

// Reads "co2_bounds", "substrate_lost" and "plausible_changes", each only where it stands.
[[nodiscard]] judging_choices read_judging_choices(json::fields& f, rule_reader& rules);

} // namespace qb::inline protocols
