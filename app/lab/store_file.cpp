// Making the file with the mode it is to have, never wider for a moment.
#include "app/lab/store_file.hpp"

#include "app/platform/files.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <unistd.h>

namespace qb::lab {

namespace {

refusal failed(const std::string& path, int why) {
  return {refusal_kind::machine, path, "making the store", std::strerror(why),
          "a folder that can be written to"};
}

// A new name is on the disk only once its folder is.
result<void> sync_folder(const std::string& path) {
  const std::string parent = std::filesystem::path(path).parent_path().string();
  const int fd = ::open(parent.empty() ? "." : parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (fd < 0) return tl::unexpected(failed(path, errno));
  const bool synced = ::fsync(fd) == 0;
  const int why = errno;
  ::close(fd);
  if (!synced) return tl::unexpected(failed(path, why));
  return {};
}

} // namespace

result<void> make_store_file(const std::string& path) {
  // Exclusively, so that of two first imports at once neither empties the other's store.
  const int fd = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (fd < 0 && errno == EEXIST) return {};
  if (fd < 0) return tl::unexpected(failed(path, errno));
  if (::close(fd) != 0) return tl::unexpected(failed(path, errno));
  return sync_folder(path);
}

result<std::string> usual_store(const std::string& data_home, const std::string& home,
                                bool make_folders) {
  std::string base = data_home;
  if (base.empty() || base.front() != '/') base = home.empty() ? "" : home + "/.local/share";
  if (base.empty())
    return tl::unexpected(refusal{refusal_kind::missing, "", "--store",
                                  "neither HOME nor XDG_DATA_HOME", "--store FILE"});
  const std::string folder = base + "/quarterbreath-lab";
  if (make_folders) {
    if (const auto made = make_folder(folder); !made) return tl::unexpected(made.error());
  }
  return folder + "/store.db";
}

} // namespace qb::lab
