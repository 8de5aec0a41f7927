// Criteria judged at the minutes of a curve. Nothing is interpolated.
//
// A sample that was closed within the test's on-time bounds is the sample of its due time, so that
// seconds do not undo an answer; any other stands at its true minute. (Our own inference; strictly
// each stands at its true minute, without slack, and that answer is told beside this one.)
// The baseline is the first sample if its minute is 0 or less, else there is none.
// A sample is in the window when its minute is at most the window's end plus the slack (the
// laboratory's own). It counts for a criterion when nothing took it out of deciding and it has a
// reading of every gas the criterion weighs; else it is, for that criterion, as if it had not been
// taken. For a rise only samples after the drink's start are in the window.
// A reading below or above the analyser's range is every figure it may be: it has the threshold
// surely, perhaps or surely not.
//
// meets                 a sample in the window surely has at least the threshold. The first that
//                       has decides. It stays met whatever is missing later. A level needs no
//                       baseline and counts the baseline itself; a rise needs one.
// does-not-meet         surely none in the window has; the baseline is there, if one is needed; and
//                       the last sample due in the window was taken there: some sample is later
//                       than its due minute less half an interval, and no later than the end plus
//                       the slack.
// cannot-be-determined  otherwise, with the reason.
//
// "Due in the window" is by the test's grid: the greatest offset that is not after the window's
// end; the interval is the one before it. A criterion for any sample has the whole grid for a
// window: its last offset counts, and there is no end. Which sample is which is told by minutes
// alone, not by numbers, so that a bare curve and a numbered one are judged alike.
#pragma once

#include "core/curve/criteria.hpp"
#include "core/curve/curve.hpp"
#include "core/protocol/judging_choices.hpp"

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline curves {

// The three answers.
enum class answer { meets, does_not_meet, cannot_be_determined };

// Their stable keys: "meets", "does-not-meet", "cannot-be-determined".
[[nodiscard]] const char* answer_text(answer a);

// Why an answer could not be given.
enum class undecided { no_substrate, no_baseline, out_of_range, no_last_sample };

// What a rise or level is of the figure that is told of it, where a reading lies outside the
// analyser's range. Two such readings may leave nothing known.
enum class told_as { exactly, less_than, more_than, not_known };

// "less-than", "more-than", "not-known"; nullptr of what is told exactly.
[[nodiscard]] const char* told_text(told_as t);

// A sample and what was found there: a rise or a level, in ppm.
struct measured_at {
  exact minute; // as it truly was
  exact value;
  told_as is{told_as::exactly};
};

// One answer.
struct criterion_verdict {
  answer what{answer::cannot_be_determined};
  std::optional<undecided> why_not;    // set where it cannot be determined
  std::optional<measured_at> decided;  // meets: the first sample that has the threshold
  std::optional<measured_at> greatest; // of the samples in the window; the first of equals
  std::optional<measured_at> perhaps;  // out_of_range: the first that may have it
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

// A laboratory's choices for one test.
struct judging_terms {
  exact slack;                                // minutes past a window's end that still count
  exact early;                                // on time: no more minutes than this before due
  exact on_time;                              // and no more than this after
  std::optional<exact> co2_least;             // per cent; none: not asked
  std::optional<plausible_changes> plausible; // none: nothing is tried, no answer is firm
};

// One sample as a criterion sees it: its gases weighed and added up.
struct weighed_sample {
  exact minute;
  std::optional<exact> due;
  exact value;                // what was read, or the figure that it is below or above
  std::optional<exact> least; // what it surely is; none: no bound
  std::optional<exact> most;
  bool over_least{false};  // it is more than `least`, never that itself
  bool under_most{false};  // it is less than `most`
  bool after_drink{false}; // later than the drink's start
  exact off;               // how far one of its readings may move it, in thousandths of a ppm
};

// What one criterion sees of a curve: the samples that count for it, by rising minute.
struct weighed_curve {
  std::vector<weighed_sample> samples;
  bool has_baseline{false}; // then it is the first
};

// `drink_start` is the drink's start on the curve's minutes.
[[nodiscard]] weighed_curve weigh(const curve& c, const criterion& by, const judging_terms& terms,
                                  exact drink_start);

// Which of the figures that a reading may be is taken.
enum class reading_as { told, at_worst, at_best };

// Ways of judging that are not the rule itself, to ask how firm its answer is.
struct judging {
  bool strict{false};                    // true minutes, no slack
  bool no_slack{false};                  // on time as ever, without the slack
  exact end_shift{};                     // every sample so much later, for the window's end,
  exact from_shift{};                    // and for being the last that was due
  bool lowest_earlier{false};            // a rise is taken from the lowest of the samples before it
  std::optional<std::size_t> left_out{}; // a sample that is passed over, by its place
  reading_as readings{reading_as::told}; // at worst or at best by how far readings may be off
};

// Judges a weighed curve.
[[nodiscard]] criterion_verdict judge(const weighed_curve& c, const criterion& by,
                                      const due_window& window, const judging_terms& terms,
                                      const judging& how = {});

// The reason for a verdict, as a sentence with its numbers.
[[nodiscard]] std::string reason_of(const criterion_verdict& v, const criterion& by,
                                    const due_window& window, exact slack);

} // namespace qb::inline curves
