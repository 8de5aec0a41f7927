// What the pages that write files share: where to, that it is being written, what was written.
// One place, so that a drive is waited for, and called safe, in the same words everywhere.
#pragma once

#include "app/patient/screens/shared.hpp"

namespace qb::inline screens {

// Whether the side page that is open asks where to write.
[[nodiscard]] bool asks_for_place(side_page open);

// Whether such a page, or a part of it, was left for what is open now: what stood against a drive
// there is of no interest any more.
[[nodiscard]] bool left_place_page(const navigation& before, const navigation& now);

// The places that were `found`, in rows that do not move under a finger: those shown before keep
// their row, also one that was pulled out, and a new one comes last.
[[nodiscard]] std::vector<export_place> in_steady_rows(std::vector<export_place> shown,
                                                       const std::vector<export_place>& found);

// The places there are as a menu, and that a drive appears by itself; answers the one pressed.
[[nodiscard]] std::optional<std::size_t> place_menu(toolkit& k, const view& v);

// The page while files are being written: nothing to press.
[[nodiscard]] maybe_wish draw_writing(toolkit& k, const view& v);

// That the files are safely written, where, and their names; and that a drive may be taken out.
void show_written(toolkit& k, const view& v, const written_files& files);

} // namespace qb::inline screens
