// Taking a test's rows out of every table, inside the caller's transaction.
#pragma once

#include "app/store/receiving_store.hpp"

namespace qb::inline store::received {

// Log, code, signatures, what was set aside, issued and handed out, and the rows that are named;
// what was asked for where that is meant. Leaves a keyed hash of the test's id. Adds to `gone` how
// many rows went; false where a step fails.
[[nodiscard]] bool remove_test(store::database& db, const forgetting& what, std::int64_t& gone);

} // namespace qb::inline store::received
