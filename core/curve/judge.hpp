// Criteria judged at the true minutes of a curve. Nothing is interpolated, nothing nominal.
//
// The baseline is the first sample if its minute is 0 or less, else there is none.
// A sample is in the window when its minute is at most the window's end plus the slack (the
// laboratory's own; 0 is strict). It counts for a criterion when it has a reading of every gas the
// criterion weighs; else it is, for that criterion, as if it had not been taken.
//
// meets                 a sample in the window has at least the threshold. The first that has
// decides.
//                       It stays met whatever is missing later. A level needs no baseline and
//                       counts the baseline itself; a rise needs one.
// does-not-meet         no sample in the window has; the baseline is there, if one is needed; and
// the
//                       last sample due in the window was taken there: some sample is later than
//                       its due minute less half an interval, and no later than the end plus the
//                       slack.
// cannot-be-determined  otherwise, with the reason.
//
// "Due in the window" is by the test's grid: the greatest offset that is not after the window's
// end; the interval is the one before it. A criterion for any sample has the whole grid for a
// window: its last offset counts, and there is no end. Which sample is which is told by minutes
// alone, not by numbers, so that a bare curve and a numbered one are judged alike.
#pragma once

#include "core/curve/criteria.hpp"
#include "core/curve/curve.hpp"

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace qb {

// The three answers.
enum class answer { meets, does_not_meet, cannot_be_determined };

// Their stable keys: "meets", "does-not-meet", "cannot-be-determined".
[[nodiscard]] const char* answer_text(answer a);

// Why an answer could not be given.
enum class undecided { no_baseline, no_last_sample };

// A sample and what was found there: a rise or a level, in ppm.
struct measured_at {
  exact minute;
  exact value;
};

// One answer.
struct criterion_verdict {
  answer what{answer::cannot_be_determined};
  std::optional<undecided> why_not;    // set where it cannot be determined
  std::optional<measured_at> decided;  // meets: the first sample that has the threshold
  std::optional<measured_at> greatest; // of the samples in the window; the first of equals
  std::optional<exact> last_taken;     // does-not-meet: the last sample in the window

  // What decides the answer: the first that met it, or the greatest, which still does not.
  [[nodiscard]] std::optional<measured_at> deciding() const;
};

// The window of a criterion on a test's grid.
struct due_window {
  std::optional<exact> end; // none: any sample
  exact last_due;           // the last sample due in it
  exact last_from;          // later than this it counts as taken
};
[[nodiscard]] due_window window_on(const criterion& c,
                                   const std::vector<std::chrono::minutes>& offsets);

// What one criterion sees of a curve: its samples, weighed, by rising minute.
struct weighed_curve {
  std::vector<measured_at> samples;
  bool has_baseline{false}; // then it is the first
};
[[nodiscard]] weighed_curve weigh(const curve& c, const criterion& by);

// Ways of judging that are not the rule itself, to ask how firm its answer is.
struct judging {
  exact slack;
  bool lowest_earlier{false};          // a rise is taken from the lowest of the samples before it
  std::optional<std::size_t> left_out; // a sample that is passed over, by its place
  std::optional<exact> least;          // at least this, in place of the threshold
  std::optional<exact> more_than;      // more than this, in place of the threshold
};

// Judges a weighed curve.
[[nodiscard]] criterion_verdict judge(const weighed_curve& c, const criterion& by,
                                      const due_window& window, const judging& how);

// Judges a curve as the rule says.
[[nodiscard]] criterion_verdict judge(const curve& c, const criterion& by,
                                      const std::vector<std::chrono::minutes>& offsets,
                                      exact slack);

// The reason for a verdict, as a sentence with its numbers.
[[nodiscard]] std::string reason_of(const criterion_verdict& v, const criterion& by,
                                    const due_window& window, exact slack);

} // namespace qb
