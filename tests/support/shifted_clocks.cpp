// Preloaded into a program, moves its wall and its boot clock by whole milliseconds, so that the
// real window can be opened on another day. It reads the real clocks; nothing is ever set.
//
// QB_SHIFT_FILE: a file of 24 bytes, three numbers of eight bytes as this machine writes them,
// which a test may change while the program runs: milliseconds of the wall clock and of the boot
// clock, and whether the two stand. Clocks that run have the milliseconds added; clocks that stand
// show them, however long the machine takes. Both moved alike is time that passed; the wall clock
// alone is a clock that was set. The clock that the window system waits with is left alone.
#include <cstdlib>
#include <ctime>
#include <fcntl.h>
#include <sys/mman.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace {

constexpr long ms_in_second = 1000;
constexpr long ns_in_ms = 1000000;
constexpr long ns_in_second = ms_in_second * ns_in_ms;

struct moved_clocks {
  volatile long wall_ms;
  volatile long boot_ms;
  volatile long stand;
};

// The file's numbers, where they can be read as they change.
const moved_clocks& map_shift_file() {
  const char* path = std::getenv("QB_SHIFT_FILE");
  const int file = path == nullptr ? -1 : open(path, O_RDONLY | O_CLOEXEC);
  void* at = mmap(nullptr, sizeof(moved_clocks), PROT_READ, MAP_SHARED, file, 0);
  if (at == MAP_FAILED) std::abort(); // a test that moves no clock must not look like one that does
  close(file);
  return *static_cast<const moved_clocks*>(at);
}

} // namespace

// The C library's own, under its own name.
extern "C" int clock_gettime(clockid_t which, timespec* at) noexcept {
  const long failed = syscall(SYS_clock_gettime, which, at);
  if (failed != 0) return static_cast<int>(failed);
  const bool wall = which == CLOCK_REALTIME || which == CLOCK_REALTIME_COARSE;
  if (!wall && which != CLOCK_BOOTTIME) return 0;
  static const moved_clocks& moved = map_shift_file();
  if (moved.stand != 0) *at = {0, 0};
  const long shift = wall ? moved.wall_ms : moved.boot_ms;
  at->tv_sec += shift / ms_in_second;
  at->tv_nsec += shift % ms_in_second * ns_in_ms;
  if (at->tv_nsec >= ns_in_second) {
    at->tv_nsec -= ns_in_second;
    ++at->tv_sec;
  } else if (at->tv_nsec < 0) {
    at->tv_nsec += ns_in_second;
    --at->tv_sec;
  }
  return 0;
}
