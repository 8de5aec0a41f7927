// A file that is written beside its place and put there in one step, so that a reader or a power
// cut sees what was there before, or all of the new one.
#pragma once

#include "core/base/result.hpp"

#include <string>

namespace qb::inline machines {

// Whether what stands in the file's place is replaced.
enum class in_its_place { nothing, replaced };

// One file that is not in its place yet. What was not put there is gone when this is gone.
class pending_file {
public:
  // Makes an empty file beside `path`, in the same folder because a rename is atomic only within a
  // file system: exclusively, so that no link is followed and no other's file is written to. Mode
  // 0600, since personal data may be inside.
  [[nodiscard]] static result<pending_file> beside(const std::string& path);

  pending_file(pending_file&& from) noexcept;
  pending_file(const pending_file&) = delete;
  pending_file& operator=(const pending_file&) = delete;
  pending_file& operator=(pending_file&&) = delete;
  ~pending_file();

  // Where it is until then.
  [[nodiscard]] const std::string& temporary() const { return temporary_; }
  [[nodiscard]] const std::string& path() const { return path_; }

  // Writes all of it.
  [[nodiscard]] result<void> write(const std::string& bytes);
  // Brings what was written to the disk, also by another hand (SQLite's).
  [[nodiscard]] result<void> sync();
  // Renames it; with `nothing` refuses (as `not_now`) where something stands there, and leaves that
  // as it is.
  [[nodiscard]] result<void> put(in_its_place before);
  // Brings the new name to the disk. Apart from `put`, so that several files appear together.
  [[nodiscard]] result<void> sync_name() const;

private:
  pending_file(std::string path, std::string temporary);
  [[nodiscard]] result<void> put_where_nothing_is();
  std::string path_;
  std::string temporary_; // empty once it is in its place
};

} // namespace qb::inline machines
