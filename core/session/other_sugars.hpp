// What another of the laboratory's sugars must never meet.
// Without a kit's code nobody but the person says which sugar lies in the packet: then the
// questions that forbid another one are asked as well, and an answer to one of them counts against
// this test until the laboratory, which packed it, says that it may go on.
#pragma once

#include "core/session/state.hpp"

#include <string>
#include <vector>

namespace qb::inline sessions {

// How a question of another sugar's test counts: yes and not sure lead to asking, and nobody but
// the laboratory may say to go on.
[[nodiscard]] caution as_of_another_sugar(caution asked);
// The same where nothing is known of it but its rule.
[[nodiscard]] caution asked_of_another_sugar(const std::string& rule);

// Whether a kit's code says which sugar lies in the packet, and was told since anything was lost.
[[nodiscard]] bool is_sugar_known(const state& s);

// Whether that question belongs to this test itself.
[[nodiscard]] bool is_own_question(const protocol& p, const std::string& rule);

// All questions before a plan of that test, in their order: its own, and without a kit code those
// of the other tests that are offered. Of these every one by which somebody may never take that
// test, unless it is asked in the same words already, and every one whose answer stands open here.
[[nodiscard]] std::vector<caution> asked_before_plan(const state& s, const protocol& p,
                                                     const std::vector<const protocol*>& offered);

} // namespace qb::inline sessions
