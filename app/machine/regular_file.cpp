// Opened without waiting and without following; asked what it is by its descriptor.
#include "app/machine/regular_file.hpp"

#include "app/machine/posix_file.hpp"

#include <cerrno>
#include <fcntl.h>
#include <fmt/core.h>
#include <sys/stat.h>
#include <unistd.h>

namespace qb::inline machines {

namespace {

refusal no_file(const std::string& path, std::string found, std::string expected) {
  return {refusal_kind::malformed, path, "", std::move(found), std::move(expected)};
}

} // namespace

result<std::string> read_regular_file(const std::string& path, std::size_t most) {
  const posix::descriptor file(
      ::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_NOCTTY | O_CLOEXEC));
  if (!file.ok()) return tl::unexpected(posix::failed(path, "open"));
  struct stat found {};
  if (::fstat(file.get(), &found) != 0) return tl::unexpected(posix::failed(path, "look"));
  if (!S_ISREG(found.st_mode))
    return tl::unexpected(no_file(path, "no regular file", "a file of bytes"));
  const std::string within = fmt::format("at most {} bytes", most);
  if (found.st_size < 0 || static_cast<std::size_t>(found.st_size) > most)
    return tl::unexpected(no_file(path, fmt::format("{} bytes", found.st_size), within));
  std::string bytes(static_cast<std::size_t>(found.st_size), '\0');
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n =
        ::pread(file.get(), bytes.data() + done, bytes.size() - done, static_cast<off_t>(done));
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return tl::unexpected(posix::failed(path, "read"));
    if (n == 0) break; // it became shorter meanwhile
    done += static_cast<std::size_t>(n);
  }
  bytes.resize(done);
  return bytes;
}

bool is_regular_file(const std::string& path) {
  struct stat found {};
  return ::lstat(path.c_str(), &found) == 0 && S_ISREG(found.st_mode);
}

} // namespace qb::inline machines
