// Two calls, since each leaves a way the other closes: a core file, and a handler of crashes.
#include "app/machine/private_memory.hpp"

#include <cstdlib>
#include <sys/prctl.h>
#include <sys/resource.h>

namespace qb::inline machines {

void keep_memory_private() {
  if (std::getenv("QUARTERBREATH_TRACED") != nullptr) return;
  const rlimit none{0, 0};
  // Where a system refuses these, there is nothing else to be done; a test must go on.
  (void)::setrlimit(RLIMIT_CORE, &none);
  (void)::prctl(PR_SET_DUMPABLE, 0);
}

} // namespace qb::inline machines
