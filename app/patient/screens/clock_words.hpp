// What the device's clocks did during the test, said calmly to the person.
// Due times follow elapsed time whatever a clock shows, and somebody who sees it jump should know.
#pragma once

#include "app/patient/screens/view.hpp"

#include <string>

namespace qb::inline screens {

// The latest thing the clocks did since the tube closed last, also one that no fact has noted yet;
// empty where they did nothing.
[[nodiscard]] std::string clock_news(const view& v);

} // namespace qb::inline screens
