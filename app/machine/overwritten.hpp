// What is taken from the disk for good: a file's bytes are overwritten where they lie before its
// blocks are given back, since what is only unlinked is still there for whoever reads the disk.
//
// Zeros go into the file's own blocks and are synced; then the file system is asked to give the
// blocks up (a hole, which it discards where it was mounted so). What no program can promise: a
// file system that keeps a journal of data or copies on writing, a flash disk that writes elsewhere
// than it was told, a snapshot, a backup. `erase` says so.
#pragma once

#include "app/machine/posix_file.hpp"

#include <string>

namespace qb::inline machines {

// A file about to lose its name, held so that its bytes can be overwritten once it has none.
class doomed_file {
public:
  // Holds what is at `path`, if that is a regular file; links are not followed.
  explicit doomed_file(const std::string& path);
  // Overwrites it, if nothing else names it any more. What fails is no matter here: its name went,
  // and that is answered for elsewhere.
  void overwrite() const;

private:
  posix::descriptor file_;
};

// Overwrites what is at `path` and leaves the file: of a regular file with no other name, whose
// bytes nobody needs any more. What fails is answered for where the file is removed.
void overwrite_in_place(const std::string& path);

// Writes those bytes over all that is at `path`, in its own blocks, and syncs them: for what must
// not be on the disk beside what replaces it. Refuses what is no regular file.
[[nodiscard]] result<void> write_in_place(const std::string& path, const std::string& bytes);

// Refuses a regular file at `path` that cannot be opened for that. Changes nothing.
[[nodiscard]] result<void> may_be_overwritten(const std::string& path);

} // namespace qb::inline machines
