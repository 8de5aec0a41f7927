// What a scripted person tells or puts right afterwards, as the fact a screen would ask for.
// The script names tubes; a correction names the event that was wrong.
#pragma once

#include "app/rehearsal/rehearsal_script.hpp"
#include "core/session/state.hpp"

namespace qb::rehearsal {

// The fact, told at `now`. Refuses what is not there to be put right.
[[nodiscard]] result<payload> reported_fact(const scripted_telling& t, const state& s, instant now);

} // namespace qb::rehearsal
