// Dates and times of a kit that cannot be, or that took too long: box, record and readings held
// against each other. Moments are those that the laboratory's clock or calendar showed.
//
// rule                    weight  when
// tested-differs          review  the box names another day of the test than the record
// posted-future           review  posted on a day that was still to come when that was told
// posted-before           review  posted before the day of the test
// arrived-unposted        review  arrived before it was posted
// reading-before-closed   review  a tube was measured before it was closed
// tube-old                review  measured more days after it was closed than the profile asks
#pragma once

#include "core/receiving/tubes.hpp"

#include <optional>
#include <vector>

namespace qb::inline receiving {

// What stands against the dates of the last box and of the readings that count. `told` is nullptr
// while no record is there; `lab` is the laboratory's zone, in which readings are dated.
[[nodiscard]] std::vector<receiving_finding> check_dates(const received_kit& kit,
                                                         const recorded_tubes* told,
                                                         std::optional<std::chrono::days> tube_age,
                                                         const zone& lab);

} // namespace qb::inline receiving
