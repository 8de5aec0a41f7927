// Whose the files of a hand-over are: read from what is inside them, never from their names.
// A name carries a kit number, and two tests may have the same one.
#pragma once

#include "app/machine/disk.hpp"

#include <string>
#include <vector>

namespace qb::handover {

// The files in `folder` that belong to that test: its record, its reminders and its papers. A file
// that does not say whose it is goes with the one beside it that does: a sealed sheet with the log
// of its name, a page with the calendar. What cannot be told apart is left out. The one that speaks
// comes after those it speaks for: taken away in this order, none is left that says nothing.
[[nodiscard]] std::vector<std::string> files_of_test(disk& device, const std::string& folder,
                                                     const std::string& test_id);

// Whether that test may write files of these endings under `stem` (a folder and a name): nothing is
// there, or what is there is its own. The one that speaks for a group decides for it; where it is
// not there, each file must be absent, say the test by itself, or be one of `ours`. A file that is
// large, or takes more work than any of ours, costs one of `patience`; without any left, such files
// count as another's, and a hand-over does not wait for a folder full of them.
[[nodiscard]] bool may_write(disk& device, const std::string& stem,
                             const std::vector<std::string>& endings, const std::string& test_id,
                             const std::vector<std::string>& ours, int& patience);

// What a kill in the middle of a write left in `folder`: files that were never given their name.
[[nodiscard]] std::vector<std::string> unfinished_files(const std::string& folder);

} // namespace qb::handover
