// POSIX calls with every result looked at.
#include "app/machine/pending_file.hpp"

#include "app/machine/new_name.hpp"
#include "app/machine/overwritten.hpp"
#include "app/machine/posix_file.hpp"

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <fmt/core.h>
#include <unistd.h>

namespace qb::inline machines {

namespace {

bool write_all(int fd, const std::string& bytes) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n = ::write(fd, bytes.data() + done, bytes.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    done += static_cast<std::size_t>(n);
  }
  return true;
}

} // namespace

pending_file::pending_file(std::string path, std::string temporary)
    : path_(std::move(path)), temporary_(std::move(temporary)) {}

pending_file::pending_file(pending_file&& from) noexcept
    : path_(std::move(from.path_)), temporary_(std::move(from.temporary_)) {
  from.temporary_.clear();
}

pending_file::~pending_file() {
  if (temporary_.empty()) return;
  const doomed_file gone(temporary_);
  (void)::unlink(temporary_.c_str());
  gone.overwrite();
}

result<pending_file> pending_file::beside(const std::string& path) {
  constexpr int most_left_behind = 100; // by programs of the same number that were killed
  for (int i = 0; i < most_left_behind; ++i) {
    const std::string temporary = fmt::format("{}.{}-{}.new", path, ::getpid(), i);
    posix::descriptor file(
        ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600));
    if (file.ok()) return pending_file(path, temporary);
    if (errno != EEXIST) break;
  }
  return tl::unexpected(posix::failed(path, "create"));
}

result<void> pending_file::write(const std::string& bytes) {
  posix::descriptor file(::open(temporary_.c_str(), O_WRONLY | O_NOFOLLOW | O_CLOEXEC));
  if (!file.ok()) return tl::unexpected(posix::failed(path_, "create"));
  if (!write_all(file.get(), bytes)) return tl::unexpected(posix::failed(path_, "write"));
  if (!file.close()) return tl::unexpected(posix::failed(path_, "close"));
  return {};
}

result<void> pending_file::sync() {
  const posix::descriptor file(::open(temporary_.c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC));
  if (!file.ok() || ::fsync(file.get()) != 0) return tl::unexpected(posix::failed(path_, "sync"));
  return {};
}

result<void> pending_file::put(in_its_place before) {
  if (before == in_its_place::nothing) return put_where_nothing_is();
  if (::rename(temporary_.c_str(), path_.c_str()) != 0)
    return tl::unexpected(posix::failed(path_, "rename"));
  temporary_.clear();
  return {};
}

result<void> pending_file::put_where_nothing_is() {
  int done = posix::rename_to_new(temporary_.c_str(), path_.c_str());
  // Where a file system does not know that call, a second name is as exclusive.
  const bool unknown = done != 0 && (errno == EINVAL || errno == ENOSYS);
  if (unknown) done = ::link(temporary_.c_str(), path_.c_str());
  if (done != 0 && errno == EEXIST)
    return tl::unexpected(refusal{refusal_kind::not_now, path_, "", "a file that is there already",
                                  "the name of a new one"});
  if (done != 0) return tl::unexpected(posix::failed(path_, "rename"));
  if (unknown) (void)::unlink(temporary_.c_str());
  temporary_.clear();
  return {};
}

result<void> pending_file::sync_name() const {
  if (!posix::sync_folder_of(path_)) return tl::unexpected(posix::failed(path_, "sync the folder"));
  return {};
}

} // namespace qb::inline machines
