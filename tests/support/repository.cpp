// The one file that is compiled with the repository's place in it.
#include "tests/support/repository.hpp"

namespace qb {

std::string repository() {
  return QB_SOURCE_DIR;
}

} // namespace qb
