// Files that are written together under one name: the first that is free, each synced and read
// back. Names carry the kit number and nothing of the person; another test's file is never
// replaced.
#pragma once

#include "app/machine/disk.hpp"

#include "core/base/result.hpp"

#include <string>
#include <vector>

namespace qb::handover {

// One file to be written: its name after the stem (file_endings.hpp), and its bytes.
struct outgoing_file {
  std::string ending;
  std::string bytes;
};

// The files that were written, in full.
struct exported_files {
  std::vector<std::string> paths;
  std::string why_unsigned; // empty where the log was signed
  bool shortened{false};    // words of a label did not fit in full
  bool renamed{false};      // the name that was wanted is somebody else's
};

// "quarterbreath-KIT", with "practice-" in front for a rehearsal.
[[nodiscard]] std::string export_stem(const std::string& kit_number, bool rehearsal);

// Whose the files are, and the name they would have.
struct file_owner {
  std::string wanted; // the stem
  std::string test_id;
  std::vector<std::string> ours{}; // paths known to be the test's, though they cannot be read
};

// Writes into `folder`, making it where there is none. The same test again replaces its own files;
// where one of that name is another's or does not say whose it is, a number is added to the name.
[[nodiscard]] result<exported_files> write_together(disk& device, const std::string& folder,
                                                    const std::vector<outgoing_file>& files,
                                                    const file_owner& owner);

} // namespace qb::handover
