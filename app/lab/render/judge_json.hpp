// A judgement as JSON, one object on one line, for scripts.
//
//   test, window_slack_min
//   criteria  id, answer ("meets", "does-not-meet", "cannot-be-determined"), minute and value of
//             the sample that decided it (met: the first that meets it; not met: the greatest,
//             which does not; else null), reason; and beside that contract
//     greatest  {minute, value} of the greatest rise or level in the window, or null
//     strict    {answer, minute, value} without the slack
//     firm      whether nothing below says otherwise
//     firmness  what the answer would be: strict, nominal_times, lowest_earlier (null for a level),
//               readings_noise, without_one_sample; needs_min, the samples without which it would
//               be another; earlier_gaps_min; others {id, published_for, answer, minute, value};
//               within_precision, only where minutes were written by hand
//     published_for, source  the dose and the citation; only of a single curve
//   flags     id, minute, value, reason
//   areas     of h2 and of ch4 {total, above_baseline} in ppm x min, or null
// Of a batch, before all others: line, and id where the line had one.
#pragma once

#include "core/base/json_writer.hpp"
#include "core/curve/judge_curve.hpp"

#include <string>

namespace qb::lab {

// Puts the members into the object that is open.
void judge_json(const judgement& j, const std::string& test, bool with_sources, json::writer& out);

} // namespace qb::lab
