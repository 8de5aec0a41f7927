// What a kit's tubes and their readings stand on besides the breath: the lot they came from, its
// last day, and the run in which they were measured.
//
// rule            weight  when
// kit-expiry      review  the test was done after the kit's last day of use
// lot-differs     review  the box bears another lot, or another last day, than the kit that was
//                         issued under its number
// control-failed  review  the control gas of a tube's run failed
#pragma once

#include "core/receiving/tubes.hpp"

#include <vector>

namespace qb::inline receiving {

// The kit's lot and last day: as it was issued, else as its box tells.
[[nodiscard]] kit_supply supply_of(const received_kit& kit, const kit_supply& issued);

// All of the above. `told` is nullptr while no record is there.
[[nodiscard]] std::vector<receiving_finding>
check_specimens(const received_kit& kit, const recorded_tubes* told, const kit_supply& issued);

} // namespace qb::inline receiving
