// Preloaded into a program, moves its wall and its boot clock by whole milliseconds, so that the
// real window can be opened on another day. It reads the real clocks; nothing is ever set.
//
// QB_SHIFT_WALL_MS and QB_SHIFT_BOOT_MS: what is added to CLOCK_REALTIME and to CLOCK_BOOTTIME.
// Both moved alike is a day that passed; the wall clock alone is a clock that was set. The clock
// that the window system waits with is left alone.
#include <cstdlib>
#include <ctime>
#include <sys/syscall.h>
#include <unistd.h>

namespace {

constexpr long ms_in_second = 1000;
constexpr long ns_in_ms = 1000000;
constexpr long ns_in_second = ms_in_second * ns_in_ms;

long shift_of(clockid_t which) {
  const char* name = nullptr;
  if (which == CLOCK_REALTIME || which == CLOCK_REALTIME_COARSE) name = "QB_SHIFT_WALL_MS";
  if (which == CLOCK_BOOTTIME) name = "QB_SHIFT_BOOT_MS";
  const char* text = name == nullptr ? nullptr : std::getenv(name);
  return text == nullptr ? 0 : std::strtol(text, nullptr, 10);
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
