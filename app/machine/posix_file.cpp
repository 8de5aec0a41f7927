// Descriptors, and the words of what failed.
#include "app/machine/posix_file.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <unistd.h>

namespace qb::posix {

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

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

bool sync_folder_of(const std::string& path) {
  const descriptor folder(::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  return folder.ok() && ::fsync(folder.get()) == 0;
}

} // namespace qb::posix
