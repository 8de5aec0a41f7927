// Mounts told by their device number, which differs from that of the folder they are in.
#include "app/machine/drives.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <sys/stat.h>
#include <sys/statvfs.h>

namespace qb::inline machines {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> folders_in(const std::string& path) {
  std::vector<std::string> out;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(path, none))
    if (entry.is_directory(none) && !entry.is_symlink(none)) out.push_back(entry.path().string());
  return out;
}

bool is_read_only(const std::string& folder) {
  struct statvfs found {};
  return ::statvfs(folder.c_str(), &found) == 0 && (found.f_flag & ST_RDONLY) != 0;
}

// The system's words for that error, as a refusal of `app/machine/files.cpp` has them.
bool says(const refusal& why, int error) {
  return why.found == std::strerror(error);
}

} // namespace

std::vector<std::string> usual_drive_roots() {
  return {"/media", "/run/media"};
}

std::vector<drive> drives_below(const std::vector<std::string>& roots) {
  std::vector<drive> out;
  const auto add = [&](const std::string& folder) {
    if (!is_drive(folder)) return false;
    out.push_back({folder, fs::path(folder).filename().string()});
    return true;
  };
  for (const std::string& root : roots) {
    for (const std::string& folder : folders_in(root)) {
      if (add(folder)) continue;
      for (const std::string& within : folders_in(folder))
        add(within);
    }
  }
  std::sort(out.begin(), out.end(), [](const drive& a, const drive& b) {
    return a.name != b.name ? a.name < b.name : a.folder < b.folder;
  });
  return out;
}

bool is_drive(const std::string& folder) {
  struct stat own {};
  struct stat above {};
  return ::stat(folder.c_str(), &own) == 0 && ::stat((folder + "/..").c_str(), &above) == 0 &&
         own.st_dev != above.st_dev;
}

place_trouble trouble_at(const std::string& folder, bool was_drive, const refusal& why) {
  if (was_drive && !is_drive(folder)) return place_trouble::gone;
  if (says(why, ENOSPC) || says(why, EDQUOT) || says(why, EFBIG)) return place_trouble::full;
  if (says(why, EROFS) || is_read_only(folder)) return place_trouble::read_only;
  return place_trouble::other;
}

} // namespace qb::inline machines
