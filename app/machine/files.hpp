// Whole files: read, and written so that a reader or a power cut sees the old one or the new one.
// Personal data may be inside, so what is written belongs to its owner alone (mode 0600).
#pragma once

#include "core/base/json.hpp"
#include "core/base/result.hpp"

#include <string>

namespace qb::inline machines {

// What becomes of a link at the end of a path: followed where a person named it, refused where
// somebody else may have laid it (on a drive, in a folder that is looked through).
enum class links { followed, refused };

// The most that is read of one file, whatever it is: everything of ours is smaller.
inline constexpr std::size_t most_file_bytes = json::most_bytes;

// The bytes of a regular file, opened once; every file that comes from outside is read here. A pipe
// or a device is refused and not waited for, and more than `most_file_bytes` are not read. Refuses
// as `missing` when there is none, as `machine` when the machine fails, as `out_of_range` what is
// too long, as `malformed` what else cannot be read.
[[nodiscard]] result<std::string> read_file(const std::string& path,
                                            links at_end = links::followed);

// Replaces the file whole: a temporary beside it is written, synced, renamed over it, and the
// folder is synced, so that on return the new bytes are on the disk. Mode 0600. What it replaces is
// overwritten (overwritten.hpp).
[[nodiscard]] result<void> write_file(const std::string& path, const std::string& bytes);

// The same without syncing, for files that may be lost with the machine (the outline).
[[nodiscard]] result<void> replace_file(const std::string& path, const std::string& bytes);

// Makes the folder (and those above it) with mode 0700; one that is there already is fine.
[[nodiscard]] result<void> make_folder(const std::string& path);

// Makes an empty file that is its owner's alone (mode 0600, never wider for a moment) and is on the
// disk when this returns; one that is there stays as it is. The folder must be there.
[[nodiscard]] result<void> make_private_file(const std::string& path);

// Whether a file is there that others than its owner may read or write.
[[nodiscard]] bool is_open_to_others(const std::string& path);

// Writes as `write_file` does and reads the bytes back: from the disk or drive itself as far as the
// system lets go of what it holds in memory, since a copy there would prove nothing. Refuses other
// bytes.
[[nodiscard]] result<void> write_and_read_back(const std::string& path, const std::string& bytes);

// Takes the file out of its folder, for good when this returns, and overwrites what it held; one
// that is not there is fine.
[[nodiscard]] result<void> remove_file(const std::string& path);

// A file that mirrors something that changes: written when the mark differs from the last one.
class mirrored_file {
public:
  explicit mirrored_file(std::string path) : path_(std::move(path)) {}
  // Writes `bytes` if `mark` is new. An empty path writes nothing.
  [[nodiscard]] result<void> show(const std::string& bytes, const std::string& mark);

private:
  std::string path_;
  std::string mark_;
  bool written_{false};
};

} // namespace qb::inline machines
