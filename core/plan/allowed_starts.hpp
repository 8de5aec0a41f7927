// The starts that a person's days allow, as intervals: at home for the whole test, awake for it.
// Apart from the preparation's rules, which all have the form "not before".
#pragma once

#include "core/plan/earliest.hpp"
#include "core/plan/intervals.hpp"

namespace qb::inline plans {

// How long a test takes: from the first sample to the last.
[[nodiscard]] duration length_of(const protocol& p);

// The starts from `from` to `until` (not part of it) with home hours from the first sample to the
// last, none of it on a day away. All of them where nothing was told.
[[nodiscard]] intervals<instant> starts_at_home(const protocol& p, const circumstances& c,
                                                const zone& z, instant from, instant until);

// The same for waking hours, from the beginning of the window "awake" to the last sample.
[[nodiscard]] intervals<instant> starts_awake(const protocol& p, const circumstances& c,
                                              const zone& z, instant from, instant until);

// The first instant at which a start is too late for the kit, or nothing where it does not expire.
[[nodiscard]] std::optional<instant> too_late_for_kit(const protocol& p, const circumstances& c,
                                                      const zone& z);

} // namespace qb::inline plans
