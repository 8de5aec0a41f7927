// Rows that an earlier version kept under a kit number as it was typed ("FV 2071"), brought under
// its one form (core/protocol/kit_number.hpp), so that they are found with all else of their kit.
// Whose they are is asked as of any other row: two people who come under one number by it are
// stopped and shown (core/receiving/whose.hpp).
#pragma once

#include "app/store/database.hpp"

namespace qb::inline store {

// Does nothing to a store in which every number has that form. Else keeps a copy of the file as it
// was (STORE.before-1, -2, …), then folds all in one transaction. Of one reading that is kept under
// two spellings the first stays, with what was decided about either; a number that is no kit number
// stays as it is.
[[nodiscard]] result<void> fold_kit_numbers(database& db);

} // namespace qb::inline store
