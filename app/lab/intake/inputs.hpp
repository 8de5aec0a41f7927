// The files an import is pointed at: found without following anything, read without trusting
// anything.
#pragma once

#include "core/base/result.hpp"

#include <cstdio>
#include <optional>
#include <string>
#include <vector>

namespace qb::lab {

// A file to read, and whether it was asked for by name or met in a folder.
struct found_file {
  std::string path;
  bool below_folder{false}; // it was not named itself
};

// What the paths of an import name.
struct found_inputs {
  std::vector<found_file> files; // in order: as named, and by name below a folder
  std::vector<refusal> refused;  // paths that are not there, links to folders, empty folders
  std::size_t passed_over{0};    // files below folders that end in no .json, .pdf or .age
};

// Looks through the paths. "-" stays as it is.
[[nodiscard]] found_inputs find_inputs(const std::vector<std::string>& paths);

// The signature file beside a log, named as it with ".minisig" after; nothing where there is none,
// or one that no signature is as long as.
[[nodiscard]] std::optional<std::string> read_signature_beside(const std::string& path);

// Everything that comes from there, up to the limit of a file (app/machine/files.hpp).
[[nodiscard]] result<std::string> read_stream(std::FILE* from);

} // namespace qb::lab
