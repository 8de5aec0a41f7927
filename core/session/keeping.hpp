// How long a shared device still keeps a test: the profile's `kiosk` terms, counted by time that
// surely passed.
// Erasing cannot be taken back and keeping can, so where the clocks leave a doubt the test stays.
//
// The hours begin at the last entry of the person, or at the planned end where that is later, for
// nobody has forgotten a test that is still to come. From that entry's reading the elapsed time is
// added up through every later event (core/clock/time_line.hpp), and is enough in one of two ways:
//   1. what no wall clock is needed for is enough: boot clocks, of each boot what the record saw
//      of it. Time in which the device was off counts for nothing here;
//   2. or the whole length is, and the system called its wall clock synchronised at both ends of
//      each step that went by it. A clock set by hand is not; one that is set ahead while the
//      device runs does not matter either way, since there the boot clock counts.
// Somebody who says that the test is theirs is an entry too: the list `kept_list`, told at any
// time. A device that is off every night and has no time service keeps a test longer than the terms
// say, by the hours that nobody can vouch for.
#pragma once

#include "core/session/state.hpp"

#include <optional>
#include <vector>

namespace qb::inline sessions {

// The list's name under which the record keeps that the person wants the test kept here.
inline constexpr const char* kept_list = "kept";
inline constexpr const char* mine_item = "mine";

// When a shared device erases the test.
struct kept_until {
  instant at;      // on the wall clock as it now stands: by then it is due, if the device runs on
  bool due{false}; // surely that long ago
};

// Nothing where the record's own terms say nothing of it, or nothing of a person was told yet.
// `events` are those that `s` was folded from; `now` is not before the last of them.
[[nodiscard]] std::optional<kept_until>
kept_until_of(const state& s, const std::vector<event>& events, const clock_reading& now);

} // namespace qb::inline sessions
