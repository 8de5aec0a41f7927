// Trying the program before anything is asked: an invented person at the glass, with three tubes.
// Everything is practice; the record is made like any, and the engine checks each fact of it.
#pragma once

#include "app/patient/screens/view.hpp"

#include <array>

namespace qb::inline shells {

// What its tubes show, one each; so many it has.
inline constexpr std::array trial_shows{"the baseline", "a tube after the drink", "a mishap"};
inline constexpr std::size_t trial_tubes = trial_shows.size();

// The test with its first tubes only.
[[nodiscard]] offered_test shortened(const offered_test& whole, std::size_t tubes);

// Whether the test that runs is such a trial.
[[nodiscard]] bool is_trial(const state& s);

// What is told up to the glass, in order, as of that reading: who, a plan that begins now, every
// question answered well, the gate.
[[nodiscard]] std::vector<payload> trial_facts(const offered_test& whole, const clock_reading& now,
                                               const zone& z);

} // namespace qb::inline shells
