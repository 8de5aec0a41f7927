// Files that are written together under one name: the first that is free, each synced and read
// back. Names carry the kit number and nothing of the person; another test's file is never
// replaced. Each stands by itself: one that cannot be made or written takes no other along.
#pragma once

#include "app/machine/disk.hpp"

#include "core/base/result.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::handover {

// One file to be written: its name after the stem (file_endings.hpp), and its bytes, or why there
// are none.
struct outgoing_file {
  std::string ending;
  result<std::string> bytes;
};

// A file that is not there, and what stood against it.
struct left_out_file {
  std::string path;
  refusal why;
};

// The files that were written, in full.
struct exported_files {
  std::vector<std::string> paths;
  std::string why_unsigned;            // empty where the log was signed
  bool shortened{false};               // words of a label did not fit in full
  bool renamed{false};                 // the name that was wanted is somebody else's
  std::vector<left_out_file> left_out; // of those that were wanted
};

// "quarterbreath-KIT", with "practice-" in front for a rehearsal.
[[nodiscard]] std::string export_stem(const std::string& kit_number, bool rehearsal);

// Whose the files are, and the name they would have.
struct file_owner {
  std::string wanted; // the stem
  std::string test_id;
  std::vector<std::string> ours{}; // paths known to be the test's, though they cannot be read
};

// Files under one name, written one by one, so that a later one may be made after the earlier ones
// are safe.
class file_group {
public:
  // Finds the name, making the folder where there is none. The same test again replaces its own
  // files; where one of these endings is another's or does not say whose it is, a number is added.
  // The disk must outlive it.
  [[nodiscard]] static result<file_group> open(disk& device, const std::string& folder,
                                               const std::vector<std::string>& endings,
                                               const file_owner& owner);

  // Written, synced, read back; or noted as left out.
  void write(const outgoing_file& file);
  // What was written; where that is nothing, what stood against the first.
  [[nodiscard]] result<exported_files> written() const;

private:
  file_group(disk& device, std::string stem) : device_(&device), stem_(std::move(stem)) {}

  disk* device_;
  std::string stem_; // with its folder
  exported_files out_;
};

// All of them, in their order.
[[nodiscard]] result<exported_files> write_together(disk& device, const std::string& folder,
                                                    const std::vector<outgoing_file>& files,
                                                    const file_owner& owner);

} // namespace qb::handover
