// Instants and durations: the two kinds of physical time, in milliseconds.
// They are std::chrono types, so that adding two instants or mixing either with a civil time
// does not compile.
#pragma once

#include <chrono>

namespace qb::inline times {

// A point on the UTC time line, in milliseconds since 1970-01-01T00:00:00Z, leap seconds ignored.
using instant = std::chrono::sys_time<std::chrono::milliseconds>;

// An elapsed time. Preparation and sampling are physiology: they are counted in elapsed time, also
// across a clock change.
using duration = std::chrono::milliseconds;

// The time line of one machine since it was started, suspend included. Comparable only between
// readings that carry the same boot identity.
struct boot_clock {
  using rep = std::int64_t;
  using period = std::milli;
  using duration = std::chrono::milliseconds;
  using time_point = std::chrono::time_point<boot_clock>;
  static constexpr bool is_steady = true;
};
using boot_time = boot_clock::time_point;

// Milliseconds since 1970 UTC, and back: for files and for the machine's clocks only.
[[nodiscard]] constexpr std::int64_t to_unix_ms(instant t) {
  return t.time_since_epoch().count();
}
[[nodiscard]] constexpr instant from_unix_ms(std::int64_t ms) {
  return instant{std::chrono::milliseconds{ms}};
}

} // namespace qb::inline times
