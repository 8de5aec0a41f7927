// Zeros in place, synced; then a hole.
#include "app/machine/overwritten.hpp"

#include "app/machine/regular_file.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <fcntl.h>
#include <string_view>
#include <sys/stat.h>
#include <unistd.h>

namespace qb::inline machines {

namespace {

// `part` again and again, from the beginning of the file on.
bool write_over(int fd, std::string_view part, off_t size) {
  off_t done = 0;
  while (done < size) {
    const auto left = static_cast<std::size_t>(size - done);
    const ssize_t n = ::pwrite(fd, part.data(), std::min(left, part.size()), done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    done += n;
  }
  return ::fsync(fd) == 0;
}

bool write_zeros(int fd, off_t size) {
  static constexpr std::array<char, 65536> zeros{};
  return write_over(fd, {zeros.data(), zeros.size()}, size);
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

result<void> write_in_place(const std::string& path, const std::string& bytes) {
  const posix::descriptor file = opened(path);
  const auto size = static_cast<off_t>(bytes.size());
  struct stat found {};
  if (!file.ok() || ::fstat(file.get(), &found) != 0)
    return tl::unexpected(posix::failed(path, "overwriting"));
  if (!S_ISREG(found.st_mode))
    return tl::unexpected(
        refusal{refusal_kind::machine, path, "overwriting", "no regular file", "a file of bytes"});
  const bool longer = found.st_size > size;
  if (longer && (!write_zeros(file.get(), found.st_size) || ::ftruncate(file.get(), size) != 0))
    return tl::unexpected(posix::failed(path, "overwriting"));
  if (!write_over(file.get(), bytes, size))
    return tl::unexpected(posix::failed(path, "overwriting"));
  return {};
}

result<void> may_be_overwritten(const std::string& path) {
  if (!is_regular_file(path) || opened(path).ok()) return {};
  return tl::unexpected(posix::failed(path, "overwriting"));
}

} // namespace qb::inline machines
