// POSIX calls with every result looked at.
#include "app/machine/files.hpp"

#include "app/machine/overwritten.hpp"
#include "app/machine/pending_file.hpp"
#include "app/machine/posix_file.hpp"

#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace qb::inline machines {

namespace {

using posix::descriptor;
using posix::failed;

result<void> put(const std::string& path, const std::string& bytes, bool sync) {
  auto file = pending_file::beside(path);
  if (!file) return tl::unexpected(file.error());
  if (auto written = file->write(bytes); !written) return written;
  if (sync)
    if (auto synced = file->sync(); !synced) return synced;
  const doomed_file before(path); // what it replaces may bear a name that was put right since
  if (auto done = file->put(in_its_place::replaced); !done) return done;
  if (sync) before.overwrite();
  return sync ? file->sync_name() : result<void>();
}

// What was written a moment ago, from the disk itself as far as the system lets go of it.
result<std::string> read_again(const std::string& path, std::size_t most) {
  const auto file = posix::open_regular(path, links::refused);
  if (!file) return tl::unexpected(file.error());
  // Synced pages are dropped on this advice, and the reading goes to the disk. Where a file system
  // knows no such thing, what it holds is all that can be read.
  (void)::posix_fadvise(file->get(), 0, 0, POSIX_FADV_DONTNEED);
  return posix::read_to_end(file->get(), path, most);
}

} // namespace

result<std::string> read_file(const std::string& path, links at_end) {
  const auto file = posix::open_regular(path, at_end);
  if (!file) return tl::unexpected(file.error());
  return posix::read_to_end(file->get(), path, most_file_bytes);
}

result<void> write_file(const std::string& path, const std::string& bytes) {
  return put(path, bytes, true);
}

result<void> replace_file(const std::string& path, const std::string& bytes) {
  return put(path, bytes, false);
}

result<void> write_and_read_back(const std::string& path, const std::string& bytes) {
  if (auto written = write_file(path, bytes); !written) return written;
  const auto back = read_again(path, bytes.size());
  if (!back) return tl::unexpected(back.error());
  if (*back == bytes) return {};
  return tl::unexpected(refusal{refusal_kind::machine, path, "reading back", "other bytes",
                                "the bytes that were written"});
}

result<void> remove_file(const std::string& path) {
  const doomed_file gone(path);
  if (::unlink(path.c_str()) != 0) {
    if (errno == ENOENT) return {};
    return tl::unexpected(failed(path, "remove"));
  }
  gone.overwrite();
  if (!posix::sync_folder_of(path)) return tl::unexpected(failed(path, "sync the folder"));
  return {};
}

result<void> make_folder(const std::string& path) {
  for (std::size_t at = path.find('/', 1); at != std::string::npos; at = path.find('/', at + 1)) {
    if (::mkdir(path.substr(0, at).c_str(), 0700) != 0 && errno != EEXIST) {
      return tl::unexpected(failed(path, "make the folder"));
    }
  }
  if (::mkdir(path.c_str(), 0700) == 0) return {};
  struct stat found {};
  if (errno == EEXIST && ::stat(path.c_str(), &found) == 0 && S_ISDIR(found.st_mode)) return {};
  return tl::unexpected(failed(path, "make the folder"));
}

bool is_open_to_others(const std::string& path) {
  struct stat about {};
  constexpr unsigned int others = S_IRWXG | S_IRWXO;
  return ::stat(path.c_str(), &about) == 0 && (about.st_mode & others) != 0;
}

result<void> mirrored_file::show(const std::string& bytes, const std::string& mark) {
  if (path_.empty() || (written_ && mark == mark_)) return {};
  const auto done = replace_file(path_, bytes);
  if (!done) return done;
  mark_ = mark;
  written_ = true;
  return {};
}

result<void> make_private_file(const std::string& path) {
  const auto no = [&path] {
    refusal r = failed(path, "make");
    r.kind = refusal_kind::machine; // a folder that is not there is the machine's trouble too
    return tl::unexpected(r);
  };
  // Exclusively, so that of two at once neither empties the other's file.
  descriptor file(::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600));
  if (!file.ok() && errno == EEXIST) return {};
  if (!file.ok() || !file.close() || !posix::sync_folder_of(path)) return no();
  return {};
}

} // namespace qb::inline machines
