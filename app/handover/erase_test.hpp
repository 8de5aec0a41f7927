// Erasing a test from this device: its journal, and the copies in the person's own folder.
// What went to a drive or to somebody is theirs, and stays where it is.
//
// The journal's key is destroyed where it lies (app/store/journal_key.hpp): that is the moment of
// erasing; of an unsealed journal it is the transaction that empties and marks it. The rows and the
// files go after it, and whatever a kill leaves of them is found again by the mark and taken away
// when the program starts next. What goes is overwritten first (app/machine/overwritten.hpp); a
// drive may keep old blocks of its own that no program can reach.
#pragma once

#include "app/machine/disk.hpp"

#include "app/store/journal_file.hpp"
#include "core/base/result.hpp"

#include <string>
#include <vector>

namespace qb::handover {

// Removes what is left of the test whose journal at `journal` was erased: its files in the own
// folder of `data`, files that a kill left unfinished there, and last the journal itself.
[[nodiscard]] result<void> remove_erased(disk& device, const std::string& data,
                                         const std::string& journal);

// Does that for every journal below `data` that is marked as erased.
[[nodiscard]] result<void> finish_erasing(disk& device, const std::string& data);

// The journals in one folder of tests, those that are marked as erased left out.
[[nodiscard]] std::vector<std::string> journals_in(const std::string& folder);

// Erases the test whose journal is at `journal` and is open nowhere, whole or not at all.
[[nodiscard]] result<void> erase_closed_test(disk& device, const std::string& data,
                                             const std::string& journal);

// Erases all practice: it may bear the same person's name, and nobody waits for it. One that is
// open elsewhere is left.
[[nodiscard]] result<void> erase_practice(disk& device, const std::string& data);

} // namespace qb::handover
