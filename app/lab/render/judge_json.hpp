// A judgement as JSON, one object on one line, for scripts.
//
//   test, window_slack_min
//   corrected  whether gases were corrected for carbon dioxide; null where none was measured
//   undeciding_min  minutes of the samples that stay in sight and decide nothing
//   criteria  id, answer ("meets", "does-not-meet", "cannot-be-determined"), minute and value of
//             the sample that decided it (met: the first that meets it; not met: the greatest,
//             which does not; else null), reason; and beside that contract
//     greatest  {minute, value} of the greatest rise or level in the window, or null
//               value_is stands beside a value that readings outside the analyser's range leave
//               open: "less-than" or "more-than" that figure, or "not-known"
//     strict    {answer, minute, value} at the true minutes, without on-time bounds and slack
//     firm      whether no plausible change turns the answer
//     firmness  tried: the changes that were, by their keys (core/curve/judge_firmness.hpp), none
//               where the laboratory names none; turned_by: those that turn the answer, with what
//               it would be and a minute or a tube; others {id, published_for, answer, minute,
//               value}
//     published_for, source  the dose and the citation; only of a single curve
//   not_judged  gas ("hydrogen", "methane") of which no criterion asks in this test, and reason
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
