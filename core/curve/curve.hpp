// A curve: what was measured in the breath, and at which minutes. All that criteria, flags and
// areas look at; it knows no person, kit or tube.
#pragma once

#include "core/base/result.hpp"
#include "core/curve/curve_number.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline curves {

// Whether an analyser could tell a reading, or only that it is below or above a figure: "<1" is
// somewhere below 1, ">200" somewhere above 200.
enum class reading_range { within, below, above };

// A reading as tables have it: "4.5", "<1", ">200"; and back. Nothing of what is none.
struct ranged_reading {
  exact figure;
  reading_range is{reading_range::within};
};
[[nodiscard]] std::string reading_text(const exact& figure, reading_range is);
[[nodiscard]] std::optional<ranged_reading> read_reading(std::string_view text);

// One sample. A reading that is not there is nothing, never zero.
struct curve_sample {
  exact minute;              // since time zero, as it truly was; below 0 before it
  std::optional<exact> h2;   // ppm
  std::optional<exact> ch4;  // ppm
  std::optional<exact> co2;  // per cent
  std::optional<int> number; // of the sample in its test, from 1; none for a bare curve
  std::optional<exact>
      due{}; // the minute at which it was due, counted like `minute`; none: not told
  reading_range h2_is{reading_range::within};
  reading_range ch4_is{reading_range::within};
  bool decides{true}; // false: it stays in sight, and no criterion counts it
};

// The range of that gas's reading: `gas` is &curve_sample::h2 or &curve_sample::ch4.
[[nodiscard]] reading_range range_of(const curve_sample& s,
                                     std::optional<exact> curve_sample::*gas);

// The samples by rising minute. None at all is a curve too.
using curve = std::vector<curve_sample>;

// The baseline: the first sample, if it was taken at time zero or before. The others at or before
// time zero are samples like any other.
[[nodiscard]] inline const curve_sample* baseline_of(const curve& c) {
  return !c.empty() && c.front().minute <= exact() ? &c.front() : nullptr;
}

// Beyond these a number in a file is a slip and no reading. They are data: a laboratory's own.
struct curve_limits {
  exact minute_least;
  exact minute_most;
  exact gas_most; // ppm
  exact co2_most; // per cent
};

// How many samples a curve may have. Far more than any test has: it only bounds the work.
inline constexpr std::size_t longest_curve = 1000;

// Checks one sample before it is added at the end of `c`: a minute that does not rise, a number
// beyond the limits, a negative reading, one sample too many. `where` is left empty.
[[nodiscard]] std::optional<refusal> no_to_sample(const curve& c, const curve_sample& next,
                                                  const curve_limits& limits);

} // namespace qb::inline curves
