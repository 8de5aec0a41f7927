// What a command writes to files: the one way out for all of them.
// A file is written where nothing is, or in place of one that this program wrote; anything else
// only where --replace says so; and never the store, a record or a key, a file that the command
// reads, a link, a folder, a pipe or a device. A report that a person concluded is not replaced by
// a draft. All are written beside their places and synced before the first is put there, so that a
// full disk leaves none of them.
#pragma once

#include "app/lab/context/console.hpp"
#include "app/lab/intake/own_output.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// One file. `state` says whether it is a report, and which.
struct output_file {
  std::string path;
  std::string bytes;
  found_output state{found_output::plain};
};

// What may not be written over, and whether something else may.
struct output_rules {
  std::string store;
  std::vector<std::string> read{}; // paths of files that the command reads
  bool replace{false};
};

// All of them, or none; each its owner's alone (mode 0600).
[[nodiscard]] result<void> write_outputs(const std::vector<output_file>& files,
                                         const output_rules& rules);

} // namespace qb::lab
