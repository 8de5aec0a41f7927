// A folder whose namespace another folder has too.
// Bad on purpose: tests/rules/run must find it.
#pragma once

namespace qb::inline plans {

// How many there are.
int of_sessions();

} // namespace qb::inline plans
