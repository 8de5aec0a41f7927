// How firm an answer is: what it would be, judged a little otherwise.
//
// strict              without the slack
// nominal-times       each sample at its due minute: its number's, or without numbers the nearest
// of
//                     the grid (of two equally near, the earlier)
// lowest-earlier      a rise from the lowest sample before it in place of the baseline
// readings-noise      met: if the threshold were higher by the readings' noise; else: if it were
//                     lower by just under it. Of several gases weighed together the noise adds up.
//                     Of a rise only: its source speaks of changes, and no precision is known for a
//                     level
// without-one-sample  each sample left out in turn, the baseline of a rise apart, without which no
//                     rise is ever told; the first other answer that comes of it, and which samples
//                     the answer needs
// uncorrected         by the gases as they were measured, where some were corrected for CO2
// without-low-co2     without every sample whose CO2 is low; only where there is such a one
// other-readings      of each tube that was read again, by that reading in place of the one used
// within-precision    every minute off by as much as it was written to, either way; only where
// times
//                     were written by hand
// others              the criteria that the file names beside it, each with the dose it was
// published
//                     for, on this test's grid
//
// An answer is firm when all of these agree with it and, where it is `does-not-meet`, no sample due
// before the last one in the window is missing.
#pragma once

#include "core/curve/judge.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb {

// What else is known of the readings: the whole curve by it.
struct curve_by_reading {
  int tube{1}; // the tube whose other reading stands in it
  curve what;
};
struct other_curves {
  std::optional<curve> uncorrected;     // none where nothing was corrected
  std::vector<curve_by_reading> second; // one for each reading that is not used
};

// What is the same for all criteria of a curve.
struct judging_terms {
  exact slack;     // minutes past a window's end that still count
  exact noise;     // ppm of one gas: a change under it is within the readings' noise
  exact precision; // how far a minute may be off, either way; 0: as exact as a clock
  const curve* uncorrected{nullptr};
  const curve* without_low_co2{nullptr}; // none where no sample is low
  const std::vector<curve_by_reading>* second{nullptr};
};

// What it would be by another reading of one tube.
struct answer_by_reading {
  int tube{1};
  answer says{answer::cannot_be_determined};
};

// What another criterion says of the same curve. Points into the list the first came from.
struct other_verdict {
  const criterion* by{nullptr};
  criterion_verdict says;
};

// The answers, in the order above. A check that makes no sense for the criterion is nothing.
struct firmness {
  bool firm{false};
  criterion_verdict strict;
  answer nominal_times{answer::cannot_be_determined};
  std::optional<answer> lowest_earlier; // none for a level
  std::optional<answer> readings_noise; // none for a level
  answer without_one_sample{answer::cannot_be_determined};
  std::optional<answer> within_precision; // none where minutes are exact
  std::optional<answer> uncorrected;      // none where nothing was corrected
  std::optional<answer> without_low_co2;  // none where no sample's CO2 is low
  std::vector<answer_by_reading> other_readings;
  std::vector<exact> needs; // the minutes of the samples without which it would be another
  std::vector<other_verdict> others;
  std::vector<std::chrono::minutes> earlier_gaps; // due minutes; only of does-not-meet
};

// One criterion made ready for a test, so that many curves can be judged.
struct ready_criterion {
  const criterion* by{nullptr};
  due_window window;
  std::vector<std::pair<const criterion*, due_window>> others;
};

// Answers them for a verdict that `judge` gave with these terms' slack.
[[nodiscard]] firmness firmness_of(const criterion_verdict& v, const curve& c,
                                   const weighed_curve& weighed, const ready_criterion& criterion,
                                   const std::vector<std::chrono::minutes>& offsets,
                                   const judging_terms& terms);

// The curve with every sample at its due minute. Samples that come to lie at one minute keep their
// order.
[[nodiscard]] curve at_nominal_times(const curve& c,
                                     const std::vector<std::chrono::minutes>& offsets);

} // namespace qb
