// The earliest start that still leaves room for the whole preparation, and the rule that binds it.
// Asked by the plan screen, so that a person is never left to do arithmetic on dates.
#pragma once

#include "core/plan/plan.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb {

// What a person told of one washout medicine: the civil date of the last dose.
struct last_dose {
  std::string rule; // a washout's rule id
  civil_date on;
};

// The earliest instant the test can start, and the id of the rule that makes it so.
struct earliest_start {
  instant at;
  std::string binding_rule;
};

// From `now`: every preparation window must still lie ahead, and every told last dose must be the
// washout's days before the start's civil date. A day that becomes free starts at its first
// instant in the zone.
[[nodiscard]] earliest_start find_earliest(const protocol& p, const std::vector<last_dose>& doses,
                                           instant now, const zone& z);

// One rule that a start breaks, and by how much it would have to be later.
struct broken_rule {
  std::string rule;
  duration later_by;
};

// Every rule that `start` breaks, in the protocol's order; empty where it is possible.
[[nodiscard]] std::vector<broken_rule> rules_broken(const protocol& p,
                                                    const std::vector<last_dose>& doses,
                                                    instant start, instant now, const zone& z);

} // namespace qb
