// The machine's clocks, read once a frame.
// What time it is, is asked here and handed on. The loop of app/glass and the lock against sleep
// look at a clock of their own to wait, and tell nobody.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>

namespace qb::inline machines {

// What the machine says of the time, at one moment.
struct machine_clocks {
  std::int64_t wall_ms{};   // since 1970-01-01T00:00:00Z, as set by whoever sets this clock
  std::int64_t boot_ms{};   // since the machine started, suspend included; -1 when not known
  std::string boot_id;      // changes with every start of the machine; empty when not known
  std::string zone;         // IANA name of the machine's zone, "UTC" when none can be found
  bool synchronised{false}; // the kernel holds the wall clock to be kept by a time service
};

// The time that runs on evenly at that moment, suspend included, which nobody can set; where the
// machine has no such clock, the wall clock's.
[[nodiscard]] std::chrono::milliseconds since_boot(const machine_clocks& m);

// Reads all clocks. Costs some microseconds; boot identity and zone are read from files each time,
// because a machine may be carried to another zone while the program runs.
[[nodiscard]] machine_clocks read_clocks();

// The zone's name from the three places it may stand in: the TZ variable's value, the text of
// /etc/timezone, the target of the /etc/localtime link. The first that names a zone wins.
[[nodiscard]] std::string zone_name(const std::string& tz, const std::string& timezone_file,
                                    const std::string& localtime_link);

} // namespace qb::inline machines
