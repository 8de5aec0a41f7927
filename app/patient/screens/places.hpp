// What the pages that write files share: where to, that it is being written, what was written.
// One place, so that a drive is waited for, and called safe, in the same words everywhere.
#pragma once

#include "app/patient/screens/shared.hpp"

namespace qb {

// The places there are as a menu, and that a drive appears by itself; answers the one pressed.
[[nodiscard]] std::optional<std::size_t> place_menu(kit& k, const view& v);

// The page while files are being written: nothing to press.
[[nodiscard]] maybe_wish draw_writing(kit& k, const view& v);

// That the files are safely written, where, and their names; and that a drive may be taken out.
void show_written(kit& k, const view& v, const written_files& files);

} // namespace qb
