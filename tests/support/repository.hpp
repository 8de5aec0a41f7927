// Where this repository stands, for tests that read its assets and demo data.
// A function in one file instead of a definition in every command line: two clones then share what
// the compiler cache has of all other tests.
#pragma once

#include <string>

namespace qb {

// The repository's folder, without a slash at its end.
[[nodiscard]] std::string repository();

} // namespace qb
