// A folder of a test's own, gone with the test.
// So that tests of real files can run at the same time and leave nothing behind.
#pragma once

#include "app/machine/disk.hpp"
#include "app/machine/durable.hpp"

#include <filesystem>
#include <string>
#include <unistd.h>

namespace qb::test {

class own_folder {
public:
  own_folder() {
    std::string name = (std::filesystem::temp_directory_path() / "qb-test-XXXXXX").string();
    QB_BELIEVE(::mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~own_folder() {
    std::error_code none;
    std::filesystem::remove_all(path_, none);
  }
  own_folder(const own_folder&) = delete;
  own_folder& operator=(const own_folder&) = delete;

  [[nodiscard]] std::string path() const { return path_.string(); }
  [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }

private:
  std::filesystem::path path_;
};

// The machine's own disk.
inline disk& this_disk() {
  static own_disk one;
  return one;
}

// Every write of it is durable when it returns.
inline durable_writes& at_once() {
  static own_durable one;
  return one;
}

} // namespace qb::test
