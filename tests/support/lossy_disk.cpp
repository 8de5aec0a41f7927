// The VFS: every method goes to the real one; writes, truncations and syncs are noted beside it.
#include "tests/support/lossy_disk.hpp"

#include "core/base/result.hpp"

#include <algorithm>
#include <csignal>
#include <cstring>
#include <fstream>
#include <iterator>
#include <random>
#include <sqlite3.h>

namespace qb {

namespace {

lossy_disk* disk = nullptr; // the one that is watched; the VFS has no other way to find it

// SQLite gives room for this; the real file follows it in the same room.
struct watched_file {
  sqlite3_file base;
  const char* path; // SQLite keeps the name alive as long as the file
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

watched_file* watched(sqlite3_file* f) {
  return reinterpret_cast<watched_file*>(f);
}
sqlite3_file* real(sqlite3_file* f) {
  return watched(f)->real();
}
const sqlite3_io_methods* methods(sqlite3_file* f) {
  return real(f)->pMethods;
}
std::string name_of(sqlite3_file* f) {
  const char* path = watched(f)->path;
  return path == nullptr ? std::string() : std::string(path);
}

int file_close(sqlite3_file* f) {
  return methods(f)->xClose(real(f));
}
int file_read(sqlite3_file* f, void* to, int n, sqlite3_int64 at) {
  return methods(f)->xRead(real(f), to, n, at);
}
int file_write(sqlite3_file* f, const void* from, int n, sqlite3_int64 at) {
  if (!disk->write(name_of(f), at, static_cast<const char*>(from), n)) return SQLITE_IOERR_WRITE;
  if (disk->is_full()) return SQLITE_FULL;
  return methods(f)->xWrite(real(f), from, n, at);
}
int file_truncate(sqlite3_file* f, sqlite3_int64 size) {
  if (!disk->truncate(name_of(f), size)) return SQLITE_IOERR_TRUNCATE;
  return methods(f)->xTruncate(real(f), size);
}
// What is sure is this disk's own doing: the real one need not be waited for.
int file_sync(sqlite3_file* f, int) {
  return disk->sync(name_of(f)) ? SQLITE_OK : SQLITE_IOERR_FSYNC;
}
int file_size(sqlite3_file* f, sqlite3_int64* size) {
  return methods(f)->xFileSize(real(f), size);
}
int file_lock(sqlite3_file* f, int level) {
  return methods(f)->xLock(real(f), level);
}
int file_unlock(sqlite3_file* f, int level) {
  return methods(f)->xUnlock(real(f), level);
}
int file_reserved(sqlite3_file* f, int* answer) {
  return methods(f)->xCheckReservedLock(real(f), answer);
}
int file_control(sqlite3_file* f, int what, void* more) {
  return methods(f)->xFileControl(real(f), what, more);
}
int file_sector(sqlite3_file* f) {
  return methods(f)->xSectorSize(real(f));
}
// The real file system may promise more than this disk keeps.
int file_traits(sqlite3_file*) {
  return 0;
}

const sqlite3_io_methods io{
    1,         file_close,  file_read,     file_write,   file_truncate, file_sync,   file_size,
    file_lock, file_unlock, file_reserved, file_control, file_sector,   file_traits, nullptr,
    nullptr,   nullptr,     nullptr,       nullptr,      nullptr};

sqlite3_vfs* under = nullptr;
sqlite3_vfs vfs{};

int vfs_open(sqlite3_vfs*, const char* path, sqlite3_file* f, int flags, int* out) {
  watched(f)->path = path;
  f->pMethods = nullptr;
  const int code = under->xOpen(under, path, real(f), flags, out);
  if (code == SQLITE_OK) f->pMethods = &io;
  return code;
}
int vfs_delete(sqlite3_vfs*, const char* path, int sync_folder) {
  disk->remove(path);
  return under->xDelete(under, path, sync_folder);
}

} // namespace

lossy_disk::lossy_disk(std::int64_t fatal, honesty how) : fatal_(fatal), how_(how) {
  QB_BELIEVE(disk == nullptr);
  disk = this;
  under = sqlite3_vfs_find(nullptr);
  vfs = *under;
  vfs.zName = "lossy";
  vfs.szOsFile = static_cast<int>(sizeof(watched_file)) + under->szOsFile;
  vfs.xOpen = vfs_open;
  vfs.xDelete = vfs_delete;
  sqlite3_vfs_register(&vfs, 1);
}

lossy_disk::~lossy_disk() {
  sqlite3_vfs_unregister(&vfs);
  sqlite3_vfs_register(under, 1);
  disk = nullptr;
}

bool lossy_disk::goes_on() {
  if (gone_) return false;
  const bool here = ++changes_ == fatal_;
  if (here && how_ == honesty::killing) std::raise(SIGKILL);
  full_ = full_ || (here && how_ == honesty::filling_up);
  gone_ = here && how_ != honesty::filling_up;
  return !gone_;
}

bool lossy_disk::write(const std::string& path, std::int64_t offset, const char* bytes,
                       std::int64_t size) {
  if (gone_) return false;
  // The write under way when power goes is one of those that may or may not arrive.
  files_[path].under_way.push_back({offset, std::vector<char>(bytes, bytes + size), {}});
  return goes_on();
}

bool lossy_disk::truncate(const std::string& path, std::int64_t size) {
  if (gone_) return false;
  files_[path].under_way.push_back({0, {}, size});
  return goes_on();
}

namespace {

void put(std::vector<char>& file, const unsynced_write& w) {
  if (w.truncated_to) {
    file.resize(static_cast<std::size_t>(*w.truncated_to), '\0');
    return;
  }
  const auto at = static_cast<std::size_t>(w.offset);
  if (file.size() < at + w.bytes.size()) file.resize(at + w.bytes.size(), '\0');
  std::copy(w.bytes.begin(), w.bytes.end(), file.begin() + static_cast<std::ptrdiff_t>(at));
}

} // namespace

bool lossy_disk::sync(const std::string& path) {
  if (!goes_on()) return false;
  if (how_ == honesty::lying) return true;
  lossy_file& f = files_[path];
  for (const unsynced_write& w : f.under_way)
    put(f.sure, w);
  f.under_way.clear();
  f.durable = true;
  return true;
}

void lossy_disk::remove(const std::string& path) {
  if (!gone_) files_.erase(path);
}

void lossy_disk::adopt(const std::string& path, std::vector<char> bytes) {
  files_[path] = {true, std::move(bytes), {}};
}

std::optional<std::vector<char>> lossy_disk::left_of(const std::string& path,
                                                     std::uint64_t seed) const {
  const auto found = files_.find(path);
  if (found == files_.end()) return std::nullopt;
  std::mt19937_64 chance(seed);
  const lossy_file& f = found->second;
  if (!f.durable && chance() % 2 == 0) return std::nullopt;
  std::vector<char> left = f.sure;
  for (unsynced_write w : f.under_way) {
    const auto fate = chance() % 3; // kept, dropped, garbled
    if (fate == 1) continue;
    if (fate == 2 && !w.bytes.empty()) {
      constexpr std::size_t sector = 512;
      const std::size_t from = chance() % w.bytes.size() / sector * sector;
      const std::size_t until = std::min(w.bytes.size(), from + sector);
      for (std::size_t i = from; i < until; ++i)
        w.bytes[i] = static_cast<char>(chance());
    }
    put(left, w);
  }
  return left;
}

} // namespace qb
