// Drafts as the rows of text that the journal keeps, and back.
// Rows are readable and their keys do not change: what an earlier version kept is read.
#pragma once

#include "app/patient/screens/drafts.hpp"

#include <map>
#include <string>

namespace qb::inline shells {

using draft_rows = std::map<std::string, std::string>;

// A row for each draft that says anything; none for what is as it is at first.
[[nodiscard]] draft_rows rows_of(const all_drafts& drafts);

// The drafts of those rows. A row that is not understood is left out: a draft lost is a line to
// type again.
[[nodiscard]] all_drafts drafts_of(const draft_rows& rows);

} // namespace qb::inline shells
