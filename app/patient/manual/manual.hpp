// What the patient's program tells of itself: the words of its helps and of quarterbreath(1).
#pragma once

#include "app/help/manual.hpp"

namespace qb::patient {

// All of it, in the order in which help and man page show it.
[[nodiscard]] help::manual whole_manual();

// Its parts, a file each.
[[nodiscard]] std::vector<help::command_page> planning_pages();
[[nodiscard]] std::vector<help::command_page> paper_pages();
[[nodiscard]] std::vector<help::command_page> record_pages();
[[nodiscard]] std::vector<help::command_page> check_pages();
[[nodiscard]] std::vector<help::topic> window_topics();
[[nodiscard]] std::vector<help::topic> record_topics();

} // namespace qb::patient
