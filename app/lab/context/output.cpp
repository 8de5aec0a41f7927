// Looking first, then writing beside, then putting in place.
#include "app/lab/context/output.hpp"

#include "app/machine/files.hpp"
#include "app/machine/pending_file.hpp"

#include <array>
#include <cerrno>
#include <filesystem>
#include <optional>
#include <sys/stat.h>

namespace qb::lab {

namespace {

namespace fs = std::filesystem;

refusal no_output(const std::string& path, std::string found, std::string expected) {
  return {refusal_kind::not_now, path, "", std::move(found), std::move(expected)};
}

// Which file it is, whatever its name.
std::optional<struct stat> file_at(const std::string& path, bool through_links) {
  struct stat out {};
  const int done = through_links ? ::stat(path.c_str(), &out) : ::lstat(path.c_str(), &out);
  return done == 0 ? std::optional(out) : std::nullopt;
}

bool same_file(const struct stat& a, const struct stat& b) {
  return a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

// Also by another spelling, through a linked folder, or by a second name of the same file; and the
// journals beside it, which SQLite would take for its own.
bool is_of_store(const std::string& path, const std::string& store) {
  const auto there = file_at(path, true);
  const auto kept = file_at(store, true);
  if (there && kept && same_file(*there, *kept)) return true;
  std::error_code none;
  const fs::path at = fs::weakly_canonical(path, none);
  const std::string whole = fs::weakly_canonical(store, none).string();
  for (const char* end : {"", "-journal", "-wal", "-shm"})
    if (at.string() == whole + end) return true;
  return false;
}

// What stands there is seen as it is: a link is not followed.
result<void> no_other_kind(const std::string& path, const struct stat& s) {
  const char* found = nullptr;
  if (S_ISLNK(s.st_mode)) found = "a link";
  if (S_ISDIR(s.st_mode)) found = "a folder";
  if (found == nullptr && !S_ISREG(s.st_mode)) found = "a pipe or a device";
  if (found == nullptr) return {};
  return tl::unexpected(no_output(path, found, "the name of a file, or - for standard output"));
}

result<void> may_replace(const output_file& file, bool replace) {
  const auto bytes = read_file(file.path);
  if (!bytes && bytes.error().kind != refusal_kind::out_of_range)
    return tl::unexpected(bytes.error());
  const found_output there = bytes ? found_in(*bytes) : found_output::foreign;
  if (there == found_output::kept)
    return tl::unexpected(no_output(file.path, "a record, a key, a database or rules",
                                    "another name: that is never written over"));
  if (replace) return {};
  if (there == found_output::foreign)
    return tl::unexpected(
        no_output(file.path, "a file that this program did not write", "a new name, or --replace"));
  if (there == found_output::issued && file.state != found_output::issued)
    return tl::unexpected(no_output(file.path, "a report that was concluded",
                                    "a new name for what is none, or --replace"));
  return {};
}

// What was there when it was looked at.
using seen = std::optional<struct stat>;

result<seen> look_at(const output_file& file, const output_rules& rules) {
  if (is_of_store(file.path, rules.store))
    return tl::unexpected(no_output(file.path, "the store", "another name"));
  const seen there = file_at(file.path, false);
  if (!there) return there;
  if (auto kind = no_other_kind(file.path, *there); !kind) return tl::unexpected(kind.error());
  for (const std::string& path : rules.read) {
    const auto input = file_at(path, true);
    if (input && same_file(*input, *there))
      return tl::unexpected(no_output(file.path, "a file that this command reads", "another name"));
  }
  if (auto may = may_replace(file, rules.replace); !may) return tl::unexpected(may.error());
  return there;
}

bool is_as_seen(const std::string& path, const seen& before) {
  const seen now = file_at(path, false);
  if (now.has_value() != before.has_value()) return false;
  return !now || (same_file(*now, *before) && now->st_mtim.tv_sec == before->st_mtim.tv_sec &&
                  now->st_mtim.tv_nsec == before->st_mtim.tv_nsec);
}

} // namespace

result<void> write_outputs(const std::vector<output_file>& files, const output_rules& rules) {
  std::vector<seen> before;
  for (const output_file& file : files) {
    const auto there = look_at(file, rules);
    if (!there) return tl::unexpected(there.error());
    before.push_back(*there);
  }
  std::vector<pending_file> pending;
  for (const output_file& file : files) {
    auto one = pending_file::beside(file.path);
    if (!one) return tl::unexpected(one.error());
    pending.push_back(std::move(*one));
    if (auto done = pending.back().write(file.bytes); !done) return done;
    if (auto done = pending.back().sync(); !done) return done;
  }
  for (std::size_t i = 0; i < pending.size(); ++i)
    if (!is_as_seen(files[i].path, before[i]))
      return tl::unexpected(
          no_output(files[i].path, "a file that changed meanwhile", "one that nobody else writes"));
  for (std::size_t i = 0; i < pending.size(); ++i) {
    const auto how = before[i] ? in_its_place::replaced : in_its_place::nothing;
    if (auto done = pending[i].put(how); !done) return done;
  }
  for (const pending_file& one : pending)
    if (auto done = one.sync_name(); !done) return done;
  return {};
}

} // namespace qb::lab
