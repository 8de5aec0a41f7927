// Zeros in place, synced; then a hole.
#include "app/machine/overwritten.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace qb::inline machines {

namespace {

bool write_zeros(int fd, off_t size) {
  static constexpr std::array<char, 65536> zeros{};
  off_t done = 0;
  while (done < size) {
    const auto left = static_cast<std::size_t>(size - done);
    const ssize_t n = ::pwrite(fd, zeros.data(), std::min(left, zeros.size()), done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    done += n;
  }
  return ::fsync(fd) == 0;
}

posix::descriptor opened(const std::string& path) {
  return posix::descriptor(
      ::open(path.c_str(), O_WRONLY | O_NONBLOCK | O_NOFOLLOW | O_NOCTTY | O_CLOEXEC));
}

// How long a regular file is that has just so many names; 0 for any other.
off_t size_named(const posix::descriptor& file, nlink_t names) {
  struct stat found {};
  const bool is_it = file.ok() && ::fstat(file.get(), &found) == 0 && S_ISREG(found.st_mode) &&
                     found.st_nlink == names;
  return is_it ? found.st_size : 0;
}

} // namespace

doomed_file::doomed_file(const std::string& path) : file_(opened(path)) {}

void doomed_file::overwrite() const {
  const off_t size = size_named(file_, 0);
  if (size == 0 || !write_zeros(file_.get(), size)) return;
  (void)::fallocate(file_.get(), FALLOC_FL_PUNCH_HOLE | FALLOC_FL_KEEP_SIZE, 0, size);
}

void overwrite_in_place(const std::string& path) {
  const posix::descriptor file = opened(path);
  (void)write_zeros(file.get(), size_named(file, 1));
}

} // namespace qb::inline machines
