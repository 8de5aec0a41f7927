// What the files of this folder that call POSIX have in common.
#pragma once

#include "app/machine/files.hpp"
#include "core/base/result.hpp"

#include <string>

namespace qb::inline machines::posix {

// Why the last call failed, of that file.
[[nodiscard]] refusal failed(const std::string& path, const char* doing);

// Closes on leaving; close() is asked for its answer where that matters.
class descriptor {
public:
  explicit descriptor(int fd) : fd_(fd) {}
  descriptor(const descriptor&) = delete;
  descriptor(descriptor&& from) noexcept : fd_(from.fd_) { from.fd_ = -1; }
  descriptor& operator=(const descriptor&) = delete;
  descriptor& operator=(descriptor&&) = delete;
  ~descriptor();
  [[nodiscard]] int get() const { return fd_; }
  [[nodiscard]] bool ok() const { return fd_ >= 0; }
  [[nodiscard]] bool close();
  // Whose it is from now on is the caller's.
  [[nodiscard]] int release();

private:
  int fd_;
};

// Opened to be read, once, and only where it is a regular file: a pipe is not waited for, a device
// not asked. Refuses as `missing` what is not there, as `machine` what the machine failed at, as
// `malformed` all else that cannot be read.
[[nodiscard]] result<descriptor> open_regular(const std::string& path, links at_end);

// Everything from there on, of what is named `path` in refusals; as `out_of_range` more than `most`
// bytes.
[[nodiscard]] result<std::string> read_to_end(int fd, const std::string& path, std::size_t most);

// The folder that a path lies in, and its entries brought to the disk.
[[nodiscard]] std::string folder_of(const std::string& path);
[[nodiscard]] bool sync_folder_of(const std::string& path);

} // namespace qb::inline machines::posix
