// Whether the sugar was taken and kept, so that gases can be answered at all.
// Without it, or vomited early, "does not meet" would be said of a test that never was.
#pragma once

#include "core/code/packed_result.hpp"
#include "core/protocol/profile.hpp"
#include "core/receiving/received.hpp"
#include "core/session/state.hpp"

#include <optional>
#include <string>

namespace qb::inline cases {

// The rule of the finding; while it stands, no criterion is answered.
inline constexpr const char* substrate_rule = "no-substrate";

// Why there was no sugar to answer for, in words; nothing where there was, or where the profile
// does not ask. A code says that a drink was vomited and not when, a sheet that the person stopped
// or vomited and not which: both count as lost, until a named person sets that aside.
[[nodiscard]] std::optional<std::string> lost_substrate(const state& s, const lab_profile& profile);
[[nodiscard]] std::optional<std::string> lost_substrate(const code::packed_result& r,
                                                        const lab_profile& profile);
[[nodiscard]] std::optional<std::string>
lost_substrate(const paper_record& sheet, const received_kit& received, const lab_profile& profile);

} // namespace qb::inline cases
