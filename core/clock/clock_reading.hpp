// One look at the machine's clocks, and what two looks say about the time between them.
// A wall clock can be set, a boot clock cannot: elapsed time follows the boot clock wherever both
// readings come from the same boot, and says so where they do not.
#pragma once

#include "core/time/instant.hpp"

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline clocks {

// Sampled once a frame or once a command by the shell; core never reads a clock.
struct clock_reading {
  instant wall;                   // the system's UTC clock; may be wrong, may be stepped
  std::optional<boot_time> boot;  // time since boot, suspend included; nothing where there is none
  std::string boot_id;            // which boot; empty where `boot` is nothing
  std::string zone;               // IANA name of the zone the device shows
  std::chrono::seconds offset{0}; // local time minus UTC that the device shows at `wall`
  bool synchronised{false};       // whether the system called its clock synchronised
};

// How far a length of time can be trusted.
enum class certainty {
  exact,   // both ends on one boot clock
  by_wall, // only the wall clock saw it, for instance across a reboot
};

// A length of time and how it is known.
struct elapsed {
  duration length{0}; // never negative
  certainty how{certainty::exact};
  // What no wall clock is needed for: the truth is not below it. The length itself where exact;
  // across a reboot how long the new boot has lasted; nothing without a boot clock.
  duration at_least{0};
  // Whether every wall clock the length rests on was called synchronised at both ends.
  bool synchronised{true};
};

// The time from one reading to a later one. By the boot clock where both are of one boot; else by
// the wall clock, but never below what the new boot clock has seen: a wall clock that went
// backwards across a reboot says nothing, and the machine has been running since.
[[nodiscard]] elapsed between(const clock_reading& earlier, const clock_reading& later);

// Whether the two were taken before and after a restart: each has a boot clock, and not the same.
[[nodiscard]] bool restarted(const clock_reading& earlier, const clock_reading& later);

// One length after the other: as sure as the less sure of them.
[[nodiscard]] elapsed operator+(const elapsed& a, const elapsed& b);

// Something that happened to the clocks between two readings.
struct clock_change {
  enum class kind { stepped, rebooted, zone_changed };
  kind what{kind::stepped};
  duration by{0}; // stepped: how far the wall clock jumped (forward is positive); else 0
};

// What the two readings show. Differences up to two seconds between the clocks are slewing and
// sampling, not a step.
[[nodiscard]] std::vector<clock_change> changes_between(const clock_reading& earlier,
                                                        const clock_reading& later);

} // namespace qb::inline clocks
