// Lengths and moments in words, shared by findings, sheets and screens, so that one length never
// reads two ways.
#pragma once

#include "core/time/zone.hpp"

#include <string>

namespace qb::inline times {

// Whole minutes and seconds in words: "3 min 5 s", "45 s"; hours from one hour on: "1 h 20 min".
[[nodiscard]] std::string length_in_words(duration d);

// "Tuesday 07:30", with the date where it is more than six days from `from`:
// "Tuesday 7 April 07:30".
[[nodiscard]] std::string day_and_time(instant t, instant from, const zone& z);

} // namespace qb::inline times
