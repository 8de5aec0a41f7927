// Elapsed time along a row of readings, from the first of them to any later moment.
// A grid must not be bent by whatever happens to the clocks on its way, and must say where it can
// only be estimated.
//
// Each step from reading to reading goes by the boot clock where both are of one boot. Across a
// restart there is the wall clock alone (`between`), and the wall clock of a machine that has just
// started may be wrong: behind, or in 1970, until a time service or a person sets it right. So the
// last reading that can be relied on is kept, and the time since it is measured anew, by the wall
// clock as it then stands, as soon as that clock is worth more than the one after the restart:
//   1. it is called synchronised, as the one relied on was, and the one after the restart was not
//      (adjtimex(2): STA_UNSYNC is set while nothing keeps the clock); or
//   2. the clock after the restart could not have been right (it had gone backwards, or was more
//      than a day ahead), and it has since been set to where it could.
// By the second, a measure of more than a day is never taken: then it was the clock before the
// restart that had been wrong, and counting by it would call every tube missed. A clock that was
// believable and synchronised right after the restart is final: setting it later is only a step.
// What was recorded before the new measure keeps its time as it was known then; only what is still
// to come is counted by the better one, and the record says by how much the two differ.
#pragma once

#include "core/clock/clock_reading.hpp"

#include <utility>

namespace qb::inline clocks {

// A restart after which the wall clock may not yet be right.
struct unsettled_restart {
  clock_reading relied_on; // the last look before it
  elapsed until_then;      // from the line's beginning to that look
  bool doubtful{false};    // the first look after it could not have been right
  bool lying{false};       // though it was called synchronised
};

// A value; going on gives the same line for the same readings.
class time_line {
public:
  time_line() = default;
  // Begins at a reading.
  explicit time_line(clock_reading first) : last_(std::move(first)) {}
  // Begun so long before the first reading, as far as that is known.
  time_line(clock_reading first, elapsed before) : last_(std::move(first)), until_last_(before) {}

  // From the beginning to that reading, which is not before the last one the line went on to.
  [[nodiscard]] elapsed at(const clock_reading& now) const;

  // Goes on to a reading. Answers by how much the time before it is now known to be longer
  // (negative: shorter) than it was taken for, where it was measured anew; else 0.
  duration go_on(const clock_reading& now);

private:
  [[nodiscard]] std::optional<elapsed> measured_anew(const clock_reading& now) const;
  void note_restart(const clock_reading& now);

  clock_reading last_;
  elapsed until_last_;
  std::optional<unsettled_restart> unsettled_;
};

} // namespace qb::inline clocks
