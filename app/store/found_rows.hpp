// The rows of a journal's events read from its bytes, without SQLite: for a file that SQLite does
// not read any more. By SQLite's published file format (www.sqlite.org/fileformat2.html, sections
// 1.6 and 2): cells of table b-tree leaf pages, their overflow pages, the record format.
//
// Nothing of a page's head is trusted: every byte of a page is tried as the beginning of a cell of
// our table, whose shape hardly anything else has. What is no cell any more is found by how it
// begins. Whether a row is whole is for the chain of hashes to say (core/record/salvage.hpp).
#pragma once

#include "core/record/salvage.hpp"
#include "core/seal/secret.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline store {

// All that look like one, in no order; a row may be found more than once.
// Sealed ones are opened with `key`, as far as that goes (app/store/sealed_rows.hpp); without it
// their numbers say that they were there.
[[nodiscard]] std::vector<found_row> rows_in_bytes(const std::string& file,
                                                   const std::optional<seal::secret<32>>& key);

} // namespace qb::inline store
