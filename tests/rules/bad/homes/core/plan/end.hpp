// A folder with two namespaces, and one that only announces what is another's.
// Bad on purpose: tests/rules/run must find it.
#pragma once

namespace qb::inline zones {
class zone;
} // namespace qb::inline zones

namespace qb {

// How many end.
int of_ends();

} // namespace qb
