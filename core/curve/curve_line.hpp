// A curve from one line of JSON, as they come by the million.
//
//   {"id":"FV-2071","test":"glucose-75g","curve":[[0,4,1],[15.5,10,null],[30,12,1,4.1]]}
//
// id      a text or a whole number, given back with the answer; may be left out
// test    the id of a protocol; may be left out where the whole batch has one
// curve   the samples by rising minute, each [minute, h2_ppm, ch4_ppm] with co2_pct as a fourth if
//         it was measured, or {"minute":0,"h2_ppm":4,"ch4_ppm":1,"co2_pct":4.1}
//
// null, or in an object a name that is not there, is a reading that is missing. "<1" and ">200", as
// texts, are readings of hydrogen or methane outside the analyser's range. "samples" is
// another name for "curve". Instead of it the columns of the CSV file may stand by their names,
// each a list: "minute", "h2_ppm", "ch4_ppm" and, if any, "co2_pct". Other names of the line are
// passed over, as they are somebody else's; in a sample they are refused.
#pragma once

#include "core/base/json.hpp"
#include "core/curve/curve.hpp"

#include <string>
#include <string_view>

namespace qb::inline curves {

// What a line says. Name and test are told as far as they were read, also where the curve is
// refused.
struct curve_line {
  json::value id;   // null where there is none
  std::string test; // empty where there is none
  result<curve> samples{curve{}};
};

// Reads it. Refuses, with the sample's place in the line: what is no JSON object of that shape, a
// name twice, a number of more digits than are kept, and what `no_to_sample` refuses.
[[nodiscard]] curve_line read_curve_line(std::string_view text, const curve_limits& limits);

} // namespace qb::inline curves
