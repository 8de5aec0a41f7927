// One look at the machine's clocks, as a frame has it: everything the frame shows, decides and
// records carries this.
#pragma once

#include "core/clock/clock_reading.hpp"

namespace qb {

// Two readings of the same moment.
struct frame_time {
  clock_reading now; // what the test goes by: the machine's clocks, or practice's
  duration evenly{}; // runs on evenly whatever practice does: for ears, eyes and hands
};

} // namespace qb
