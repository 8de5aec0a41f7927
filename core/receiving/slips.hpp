// What a hand may have slipped in while receiving, and what came in its place: sheets and readings.
// A pure function, so that receiving, the day's list and the report say the same.
//
// rule              weight  when
// paper-replaced    review  a later sheet stands in place of an earlier one that differs
// drink-unlikely    review  a sheet's drink lies where none can be: see `drink_slip`
// reading-early     review  measured before the day of the test, or before the box arrived
#pragma once

#include "core/receiving/tubes.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline receiving {

// Of a sheet's drink: begun or ended after the last tube, begun before tube 1 by more than the
// profile gives it after tube 1, or ended before it was begun. The words name both times; nothing
// where it may be, or where the sheet does not tell it.
[[nodiscard]] std::optional<std::string> drink_slip(const paper_record& sheet,
                                                    const drink_bounds& bounds);

// In what two sheets of a kit differ: "day, times, drink, scores", those that do; empty where they
// are the same sheet.
[[nodiscard]] std::string sheet_differences(const paper_record& kept, const paper_record& next);

// All of the above. `told` is nullptr while no record is there; sheets are looked at only where
// `by_paper`, since log and code stand before them. `lab` is the laboratory's zone, in whose times
// of day its instruments tell their readings.
[[nodiscard]] std::vector<receiving_finding> check_slips(const received_kit& kit,
                                                         const recorded_tubes* told, bool by_paper,
                                                         const lab_profile& profile,
                                                         const zone& lab);

} // namespace qb::inline receiving
