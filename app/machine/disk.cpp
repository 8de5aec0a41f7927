// The machine's files under the names of the interface.
#include "app/machine/disk.hpp"

#include "app/machine/files.hpp"

namespace qb::inline machines {

result<std::string> own_disk::read(const std::string& path) {
  return read_file(path, links::refused);
}

result<void> own_disk::write(const std::string& path, const std::string& bytes) {
  return write_and_read_back(path, bytes);
}

result<void> own_disk::remove(const std::string& path) {
  return remove_file(path);
}

result<void> own_disk::make_folder(const std::string& path) {
  return qb::make_folder(path);
}

} // namespace qb::inline machines
