// This process's memory kept to itself: names, answers and keys are in it.
#pragma once

namespace qb::inline machines {

// From now on a crash leaves no image of the memory anywhere, and another process of the same user
// cannot look into it. Not where the environment has QUARTERBREATH_TRACED, for who looks for a
// mistake of ours with a debugger and an invented person.
void keep_memory_private();

} // namespace qb::inline machines
