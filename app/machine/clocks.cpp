// Linux clocks: CLOCK_REALTIME, CLOCK_BOOTTIME, the boot identity, adjtimex() for asking only.
// Nothing here ever sets a clock: adjtimex() is called with no modes.
#include "app/machine/clocks.hpp"
#include "app/machine/files.hpp"

#include <array>
#include <cstdlib>
#include <ctime>
#include <sys/timex.h>
#include <unistd.h>

namespace qb::inline machines {

namespace {

std::int64_t milliseconds(clockid_t which) {
  timespec t{};
  if (clock_gettime(which, &t) != 0) return -1;
  return static_cast<std::int64_t>(t.tv_sec) * 1000 + t.tv_nsec / 1'000'000;
}

std::string first_line(const char* path) {
  const auto text = read_file(path);
  return text ? text->substr(0, text->find('\n')) : std::string{};
}

std::string link_target(const char* path) {
  std::array<char, 4096> target{};
  const ssize_t size = readlink(path, target.data(), target.size());
  return size > 0 ? std::string(target.data(), static_cast<std::size_t>(size)) : std::string{};
}

bool kernel_says_synchronised() {
  timex asked{};
  asked.modes = 0;
  const int state = adjtimex(&asked);
  return state != TIME_ERROR && state != -1 && (asked.status & STA_UNSYNC) == 0;
}

// A zone's name stands after the folder of zones in a path.
std::string after_zoneinfo(const std::string& path) {
  const std::string folder = "zoneinfo/";
  const std::size_t at = path.find(folder);
  return at == std::string::npos ? std::string{} : path.substr(at + folder.size());
}

} // namespace

std::string zone_name(const std::string& tz, const std::string& timezone_file,
                      const std::string& localtime_link) {
  std::string named = tz;
  if (!named.empty() && named.front() == ':') named.erase(0, 1);
  if (!named.empty() && named.front() == '/') named = after_zoneinfo(named);
  // A rule such as "CET-1CEST" has no name of a place; only UTC stands without a slash.
  if (named == "UTC" || named.find('/') != std::string::npos) return named;
  const std::string written = timezone_file.substr(0, timezone_file.find_first_of(" \t\r\n"));
  if (!written.empty()) return written;
  const std::string linked = after_zoneinfo(localtime_link);
  return linked.empty() ? "UTC" : linked;
}

machine_clocks read_clocks() {
  machine_clocks clock_reading;
  clock_reading.wall_ms = milliseconds(CLOCK_REALTIME);
  clock_reading.boot_ms = milliseconds(CLOCK_BOOTTIME);
  clock_reading.boot_id = first_line("/proc/sys/kernel/random/boot_id");
  const char* tz = std::getenv("TZ");
  clock_reading.zone = zone_name(tz != nullptr ? tz : "", first_line("/etc/timezone"),
                                 link_target("/etc/localtime"));
  clock_reading.synchronised = kernel_says_synchronised();
  return clock_reading;
}

} // namespace qb::inline machines
