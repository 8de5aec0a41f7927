// How much of a record's findings a reader is given.
// A record may hold twenty thousand facts, and somebody may have made it so; nobody reads as many
// findings, no sheet holds them, and one that ran to a thousand pages would be told by nobody. What
// is beyond is counted and said: all of it stands in the record.
#pragma once

#include "core/findings/findings.hpp"

#include <cstddef>
#include <vector>

namespace qb::inline findings {

// Findings of one rule that are told one by one; more than any test of ours has.
inline constexpr std::size_t most_of_a_rule = 100;
// Bytes of one finding's sentence, and events that it names.
inline constexpr std::size_t most_finding_words = 4000;
inline constexpr std::size_t most_finding_events = 100;

// The same findings in the same order, each cut to its bounds. Those of a rule beyond
// `most_of_a_rule` are one finding in the place of the first of them, as weighty as the weightiest.
[[nodiscard]] std::vector<finding> bounded_findings(std::vector<finding> all);

} // namespace qb::inline findings
