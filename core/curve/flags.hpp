// What a curve shows that a reader should look at before trusting it. A flag decides nothing.
// Every figure is data with its rule and its source, in assets/flags/gases.json.
//
// high-baseline       the baseline's H2 is over `high_baseline_h2`
// single-early-spike  a sample within `spike_until` (and the window slack) after time zero has an
// H2
//                     rise of at least `spike_rise`, and the next one with an H2 reading has not
// flat                every H2 reading is at most `flat_h2` and every CH4 reading at most
// `flat_ch4`,
//                     and there are two or more of each
// falling-methane     some later CH4 is at least `methane_fall` below the baseline's
// low-co2             some CO2 is under `low_co2`; the lowest is its value, and every one is told
// no-baseline         there is no sample at time zero or before
// gap                 a sample that was due is missing (`gaps_of`); one flag for each
#pragma once

#include "core/curve/curve.hpp"
#include "core/protocol/protocol.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace qb::inline curves {

// The figures of the flags and the limits of what is read.
struct flag_rules {
  curve_limits limits;
  exact high_baseline_h2;
  exact spike_until; // minute
  exact spike_rise;
  exact flat_h2;
  exact flat_ch4;
  exact methane_fall;
  exact low_co2; // per cent
  std::vector<source> sources;
};

// Reads the file; refuses with line and field, as `read_protocol` does.
[[nodiscard]] result<flag_rules> read_flag_rules(std::string_view text);

// One flag: its id (above), where it was seen and how much of it, where there is one such place,
// and a sentence.
struct flag {
  std::string id;
  std::optional<exact> minute;
  std::optional<exact> value; // ppm, or per cent for low-co2
  std::string reason;
};

// Whether the sample's carbon dioxide was measured and is under `low_co2`.
[[nodiscard]] bool is_low_in_co2(const curve_sample& s, const flag_rules& rules);

// All flags of the curve, in the order above. `offsets` are the test's due times after time zero.
[[nodiscard]] std::vector<flag> flags_of(const curve& c, const flag_rules& rules,
                                         const std::vector<std::chrono::minutes>& offsets,
                                         exact slack);

// The due minutes, the first of the grid apart, near which none of `taken` (rising) lies: later
// than half an interval before, and no later than half the next interval after. The last has no end
// after it.
[[nodiscard]] std::vector<std::chrono::minutes>
gaps_of(const std::vector<exact>& taken, const std::vector<std::chrono::minutes>& offsets);

} // namespace qb::inline curves
