// Preloaded into a program, moves its wall and its boot clock by whole milliseconds, so that the
// real window can be opened on another day. It reads the real clocks; nothing is ever set.
//
// QB_SHIFT_WALL_MS and QB_SHIFT_BOOT_MS: what is added to CLOCK_REALTIME and to CLOCK_BOOTTIME.
// QB_SHIFT_FILE: a file of 16 bytes, two numbers of eight bytes as this machine writes them, that
// are added too: the same two shifts, which a test may change while the program runs. Both moved
// alike is time that passed; the wall clock alone is a clock that was set. The clock that the
// window system waits with is left alone.
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

struct moving_shifts {
  volatile long wall_ms;
  volatile long boot_ms;
};

// The file's two numbers, where they can be read as they change; null where no file is named.
const moving_shifts* map_shift_file() {
  const char* path = std::getenv("QB_SHIFT_FILE");
  if (path == nullptr) return nullptr;
  const int file = open(path, O_RDONLY | O_CLOEXEC);
  void* at = mmap(nullptr, sizeof(moving_shifts), PROT_READ, MAP_SHARED, file, 0);
  if (at == MAP_FAILED) std::abort(); // a test that moves no clock must not look like one that does
  close(file);
  return static_cast<const moving_shifts*>(at);
}

long shift_of(clockid_t which) {
  const bool wall = which == CLOCK_REALTIME || which == CLOCK_REALTIME_COARSE;
  if (!wall && which != CLOCK_BOOTTIME) return 0;
  static const moving_shifts* const moving = map_shift_file();
  const char* text = std::getenv(wall ? "QB_SHIFT_WALL_MS" : "QB_SHIFT_BOOT_MS");
  const long fixed = text == nullptr ? 0 : std::strtol(text, nullptr, 10);
  if (moving == nullptr) return fixed;
  return fixed + (wall ? moving->wall_ms : moving->boot_ms);
}

} // namespace

// The C library's own, under its own name.
extern "C" int clock_gettime(clockid_t which, timespec* at) noexcept {
  const long failed = syscall(SYS_clock_gettime, which, at);
  if (failed != 0) return static_cast<int>(failed);
  const long shift = shift_of(which);
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
