// The files an import is pointed at: found without following anything, read without trusting
// anything.
#pragma once

#include "core/base/result.hpp"

#include <cstdio>
#include <string>
#include <vector>

namespace qb::lab {

// What the paths of an import name.
struct found_inputs {
  std::vector<std::string> files; // in order: as named, and by name below a folder
  std::vector<refusal> refused;   // paths that are not there, links to folders, empty folders
  std::size_t passed_over{0};     // files below folders that do not end in .json
};

// Looks through the paths. "-" stays as it is.
[[nodiscard]] found_inputs find_inputs(const std::vector<std::string>& paths);

// A regular file's bytes, at most as many as a log may have. A pipe or a device is refused rather
// than waited for.
[[nodiscard]] result<std::string> read_input(const std::string& path);

// Everything that comes from there, up to the same limit.
[[nodiscard]] result<std::string> read_stream(std::FILE* from);

} // namespace qb::lab
