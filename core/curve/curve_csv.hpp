// A curve from a file of comma-separated values.
//
//   minute,h2_ppm,ch4_ppm[,co2_pct]      the header: these names, in any order
//   0,4,1                                one row a sample, by rising minute
//   15.5,,1                              an empty cell is a reading that is missing
//
// "<1" and ">200" are readings of hydrogen or methane outside the analyser's range.
// Lines, blanks and quotes are as core/base/csv.hpp tells. Numbers have a point, never a comma, and
// up to 18 digits after it. Minutes count from time zero.
#pragma once

#include "core/curve/curve.hpp"

#include <string_view>

namespace qb::inline curves {

// Reads it. Refuses with the line: another header, another number of cells, what is not a number
// (NaN and infinity among them), and what `no_to_sample` and csv::reader refuse. A header alone is
// a curve without samples.
[[nodiscard]] result<curve> read_curve_csv(std::string_view text, const curve_limits& limits);

} // namespace qb::inline curves
