// How firm an answer is: which plausible change would turn it into another.
//
// What is plausible is the laboratory's own choice (core/protocol/judging_choices.hpp), made before
// anything is measured. Each change is tried by itself:
//
// slack           without the slack
// timing          every sample's time off by the clock's share and by how far its record may be
//                 off, either way, for the window's end and for being the last sample in it
// readings        one reading off, of a sample or of the baseline: met, so that the rise or level
// is
//                 as small as it may be; else, as great as it may be
// lowest-earlier  a rise from the lowest sample before it in place of the baseline
// uncorrected     by the gases as they were measured, where some were corrected for CO2
// low-co2         without every sample whose CO2 a flag calls low, where it decides all the same
// other-reading   of each tube that was read again, by that reading in place of the one used
// implausible     without a sample that stands out above both its neighbours, or below; each in
//                 turn
// gap             of does-not-meet only: a sample that was due before the last in the window and
//                 has no reading that counts, and might have met it
//
// An answer is firm when something was tried and nothing turns it. What cannot be determined is
// never firm.
//
// Beside that stand, and take no firmness away: the strict minute (true minutes, no slack), and the
// criteria that the file names beside it, each with the dose it was published for.
#pragma once

#include "core/curve/judge.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline curves {

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
struct curve_terms {
  const judging_terms* laboratory{nullptr};
  exact precision;   // how far a minute of the record may be off, either way; 0: as a clock's
  exact drink_start; // on the curve's minutes
  const curve* without_low_co2{nullptr}; // none where no sample that decides is low
  const other_curves* otherwise{nullptr};
};

// What is tried; each by itself.
enum class change {
  slack,
  timing,
  readings,
  lowest_earlier,
  uncorrected,
  low_co2,
  other_reading,
  implausible,
  gap
};

// Their stable keys, as above.
[[nodiscard]] const char* change_text(change c);

// A change that turns an answer into another.
struct turn {
  change by{change::slack};
  answer to{answer::cannot_be_determined};
  std::optional<exact> minute{}; // of an implausible sample; of a gap, when it was due
  std::optional<int> tube{};     // of another reading
};

// What another criterion says of the same curve. Points into the list the first came from.
struct other_verdict {
  const criterion* by{nullptr};
  criterion_verdict says;
};

// What was tried of one answer, and what of it would turn it.
struct firmness {
  bool firm{false};
  std::vector<change> tried; // each once, in order; none where the laboratory names none
  std::vector<turn> turns;   // in the same order
  criterion_verdict strict;
  std::vector<other_verdict> others;
};

// One criterion made ready for a test, so that many curves can be judged.
struct ready_criterion {
  const criterion* by{nullptr};
  due_window window;
  std::vector<std::pair<const criterion*, due_window>> others;
};

// Answers them for a verdict that `judge` gave.
[[nodiscard]] firmness firmness_of(const criterion_verdict& v, const curve& c,
                                   const weighed_curve& weighed, const ready_criterion& criterion,
                                   const std::vector<std::chrono::minutes>& offsets,
                                   const curve_terms& terms);

} // namespace qb::inline curves
