// Descriptors, and the words of what failed.
#include "app/machine/posix_file.hpp"

#include <array>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fmt/core.h>
#include <sys/stat.h>
#include <unistd.h>

namespace qb::inline machines::posix {

refusal failed(const std::string& path, const char* doing) {
  const int why = errno;
  const auto kind = why == ENOENT ? refusal_kind::missing : refusal_kind::machine;
  return {kind, path, doing, std::strerror(why), "a file that can be used"};
}

descriptor::~descriptor() {
  if (fd_ >= 0) (void)::close(fd_);
}

bool descriptor::close() {
  const int fd = fd_;
  fd_ = -1;
  return ::close(fd) == 0;
}

int descriptor::release() {
  const int fd = fd_;
  fd_ = -1;
  return fd;
}

namespace {

refusal unread(const std::string& path, const char* doing) {
  const int why = errno;
  refusal no = failed(path, doing);
  const bool machine = why == EIO || why == ENOMEM || why == EMFILE || why == ENFILE;
  if (no.kind == refusal_kind::machine && !machine) no.kind = refusal_kind::malformed;
  return no;
}

refusal another_kind(const std::string& path, const char* found, const char* expected) {
  return {refusal_kind::malformed, path, "", found, expected};
}

} // namespace

result<descriptor> open_regular(const std::string& path, links at_end) {
  const int follow = at_end == links::refused ? O_NOFOLLOW : 0;
  descriptor file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC | follow));
  if (!file.ok() && errno == ELOOP)
    return tl::unexpected(another_kind(path, "a link", "the file itself"));
  if (!file.ok()) return tl::unexpected(unread(path, "open"));
  struct stat about {};
  if (::fstat(file.get(), &about) != 0) return tl::unexpected(unread(path, "open"));
  if (S_ISREG(about.st_mode)) return file;
  return tl::unexpected(
      another_kind(path, S_ISDIR(about.st_mode) ? "a folder" : "a pipe or a device", "a file"));
}

result<std::string> read_to_end(int fd, const std::string& path, std::size_t most) {
  std::string bytes;
  std::array<char, 65536> part{};
  for (;;) {
    const ssize_t n = ::read(fd, part.data(), part.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return tl::unexpected(unread(path, "read"));
    if (n == 0) return bytes;
    bytes.append(part.data(), static_cast<std::size_t>(n));
    if (bytes.size() > most)
      return tl::unexpected(refusal{refusal_kind::out_of_range, path, "", "more bytes",
                                    fmt::format("at most {} bytes", most)});
  }
}

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

bool sync_folder_of(const std::string& path) {
  const descriptor folder(::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  return folder.ok() && ::fsync(folder.get()) == 0;
}

} // namespace qb::inline machines::posix
