// A process that keeps its memory to itself. In a child, since there is no way back.
#include "app/machine/private_memory.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace qb;

namespace {

// 1: it can be dumped; 2: a core file may be written; 0: neither.
int asked_in_a_child(bool traced) {
  const pid_t child = ::fork();
  if (child == 0) {
    if (traced) ::setenv("QUARTERBREATH_TRACED", "1", 1);
    keep_memory_private();
    rlimit core{};
    ::getrlimit(RLIMIT_CORE, &core);
    ::_exit(::prctl(PR_GET_DUMPABLE) != 0 ? 1 : core.rlim_max != 0 ? 2 : 0);
  }
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  return WEXITSTATUS(status);
}

} // namespace

TEST_CASE("a crash leaves no image of the memory, unless somebody looks for a mistake of ours") {
  CHECK(asked_in_a_child(false) == 0);
  CHECK(asked_in_a_child(true) == 1);
}
