// What the laboratory's program tells of itself: the words of its helps and of
// quarterbreath-lab(1).
#pragma once

#include "app/help/manual.hpp"

namespace qb::lab {

// All of it, in the order in which help and man page show it.
[[nodiscard]] help::manual whole_manual();

// Its parts, a file each.
[[nodiscard]] std::vector<help::command_page> record_pages();
[[nodiscard]] std::vector<help::command_page> receiving_pages();
[[nodiscard]] std::vector<help::command_page> list_pages();
[[nodiscard]] std::vector<help::command_page> reader_pages();
[[nodiscard]] std::vector<help::command_page> system_pages();
[[nodiscard]] std::vector<help::command_page> care_pages();
[[nodiscard]] std::vector<help::command_page> check_pages();
[[nodiscard]] std::vector<help::command_page> own_pages();
[[nodiscard]] std::vector<help::command_page> bench_pages();
[[nodiscard]] std::vector<help::topic> topics();

} // namespace qb::lab
