// Findings of the breaths themselves: too short, or in another order than the tubes' numbers.
#pragma once

#include "core/findings/findings.hpp"

#include <vector>

namespace qb::inline findings {

// Tubes that were closed before one of a lower number, by elapsed time; said once for each, of the
// higher number of the first pair.
void order_findings(const state& s, std::vector<finding>& out);

// What was told to have gone wrong with that tube's breaths: with the one that counts, with those
// that were blown again, and what was taken back.
void spoil_findings(const state& s, sample_number n, std::vector<finding>& out);

// Guided breaths shorter than the protocol's least. The program does not take such a closing, so
// this is about records that another hand or an older program wrote. Asks the events, as the state
// does not keep when a breath began; only of closings that still count.
[[nodiscard]] std::vector<finding> short_breath_findings(const std::vector<event>& events,
                                                         const state& s);

} // namespace qb::inline findings
