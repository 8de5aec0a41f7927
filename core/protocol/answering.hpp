// Whether somebody at the laboratory answers the telephone at an instant, and when next.
// One function for every page and paper that shows its number, so that none of them sends anybody
// to a telephone that rings in an empty room without saying so.
#pragma once

#include "core/protocol/profile.hpp"
#include "core/time/zone.hpp"

#include <optional>

namespace qb::inline protocols {

// Whether the telephone is answered.
enum class answering {
  open,
  closed,
  unknown, // the profile has its hours in words only (version 1)
};

// At one instant.
struct answering_at {
  answering now{answering::unknown};
  std::optional<instant> changes; // open: until then; closed: again from then. Nothing where no
                                  // change lies in the three weeks ahead
};

// By the profile's opening hours and the days it does not work, in the laboratory's own time, which
// is that of `z`. A time that a clock jumps over is the moment of the jump; of one that it shows
// twice the first opens and the second closes.
[[nodiscard]] answering_at answers_telephone(const lab_profile& lab, instant t, const zone& z);

} // namespace qb::inline protocols
