// The disk as a value that can be passed in: what leaves the program as files goes through it.
// A double of it fails as a full, a read-only or a pulled-out drive does, without one.
#pragma once

#include "core/base/result.hpp"

#include <string>

namespace qb::inline machines {

// Outlives whatever it is passed to; refusals name the path.
class disk {
public:
  disk() = default;
  disk(const disk&) = delete;
  disk& operator=(const disk&) = delete;
  virtual ~disk() = default;

  // As the functions of app/machine/files.hpp with these names; `write` is write_and_read_back, and
  // `read` follows no link.
  [[nodiscard]] virtual result<std::string> read(const std::string& path) = 0;
  [[nodiscard]] virtual result<void> write(const std::string& path, const std::string& bytes) = 0;
  [[nodiscard]] virtual result<void> remove(const std::string& path) = 0;
  [[nodiscard]] virtual result<void> make_folder(const std::string& path) = 0;
};

// This machine's own.
class own_disk : public disk {
public:
  [[nodiscard]] result<std::string> read(const std::string& path) override;
  [[nodiscard]] result<void> write(const std::string& path, const std::string& bytes) override;
  [[nodiscard]] result<void> remove(const std::string& path) override;
  [[nodiscard]] result<void> make_folder(const std::string& path) override;
};

} // namespace qb::inline machines
