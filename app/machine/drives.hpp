// Drives that can be plugged in and pulled out, and why one did not take what was written.
// A drive is a file system of its own below a folder of the system's for such: an empty folder that
// a drive left behind there is this device's own disk, and nothing may be "handed over" to it.
#pragma once

#include "core/base/result.hpp"

#include <string>
#include <vector>

namespace qb::inline machines {

// A file system of its own that is mounted now.
struct drive {
  std::string folder; // where it is mounted
  std::string name;   // as its label or the system names it
};

// Where the system mounts drives: /media and /run/media, each with a folder a user.
[[nodiscard]] std::vector<std::string> usual_drive_roots();

// The drives that are there now, below each root or a folder in it, sorted by name.
[[nodiscard]] std::vector<drive> drives_below(const std::vector<std::string>& roots);

// Whether a file system of its own begins at that folder.
[[nodiscard]] bool is_drive(const std::string& folder);

// What stood against writing.
enum class place_trouble { gone, read_only, full, other };

// What it was, from the refusal of a write into `folder` and from the folder as it is now. A folder
// that `was_drive` and is none any more is gone, whatever the refusal says.
[[nodiscard]] place_trouble trouble_at(const std::string& folder, bool was_drive,
                                       const refusal& why);

} // namespace qb::inline machines
