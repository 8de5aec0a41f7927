// Linux's own call.
#include "app/machine/new_name.hpp"

#include <cstdio>
#include <fcntl.h>

namespace qb::inline machines::posix {

int rename_to_new(const char* from, const char* to) {
  return ::renameat2(AT_FDCWD, from, AT_FDCWD, to, RENAME_NOREPLACE);
}

} // namespace qb::inline machines::posix
