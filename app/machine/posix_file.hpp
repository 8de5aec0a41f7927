// What the files of this folder that call POSIX have in common.
#pragma once

#include "core/base/result.hpp"

#include <string>

namespace qb::posix {

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

private:
  int fd_;
};

// The folder that a path lies in, and its entries brought to the disk.
[[nodiscard]] std::string folder_of(const std::string& path);
[[nodiscard]] bool sync_folder_of(const std::string& path);

} // namespace qb::posix
