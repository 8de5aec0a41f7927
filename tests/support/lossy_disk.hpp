// A disk that loses what was not synced: an SQLite VFS over the real one that remembers, for every
// file, what a power cut at this moment might leave of it.
// Unsynced writes are kept, dropped or garbled one by one, by a seed, as a real disk may do with
// sectors in its cache. A file that was never synced may be gone altogether.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace qb {

// One change that is not synced yet: bytes at a place, or a new length.
struct unsynced_write {
  std::int64_t offset{0};
  std::vector<char> bytes;
  std::optional<std::int64_t> truncated_to;
};

// A file as the disk is sure of it, and what is still under way.
struct lossy_file {
  bool durable{false}; // whether its name survives
  std::vector<char> sure;
  std::vector<unsynced_write> under_way;
};

// The whole disk; the VFS writes to it beside the real files.
class lossy_disk {
public:
  // Makes it SQLite's default VFS; there is one at a time, until the object is gone. Power goes at
  // the `fatal`-th write, truncation or sync from now on (1 is the first): from then on every
  // change fails. 0: never. A disk that lies says that it synced and did not: a test that cannot
  // tell it from an honest one proves nothing. A disk that fills up lets no file grow from there on
  // until space returns; one that kills ends the process by SIGKILL in the middle of that change.
  enum class honesty { honest, lying, filling_up, killing };
  explicit lossy_disk(std::int64_t fatal, honesty how = honesty::honest);
  lossy_disk(const lossy_disk&) = delete;
  lossy_disk& operator=(const lossy_disk&) = delete;
  ~lossy_disk();

  [[nodiscard]] bool power_is_gone() const { return gone_; }
  [[nodiscard]] std::int64_t changes() const { return changes_; }
  [[nodiscard]] bool is_full() const { return full_; }
  // Now: nothing is written any more, as where a file system writes anew what it overwrites.
  void fills_up() { full_ = true; }
  void space_returns() { fatal_ = 0, full_ = false; }

  // What a power cut leaves of the file, by the seed; nothing where not even its name is left.
  [[nodiscard]] std::optional<std::vector<char>> left_of(const std::string& path,
                                                         std::uint64_t seed) const;

  // For the VFS. Each answers false where power is gone.
  [[nodiscard]] bool write(const std::string& path, std::int64_t offset, const char* bytes,
                           std::int64_t size);
  [[nodiscard]] bool truncate(const std::string& path, std::int64_t size);
  [[nodiscard]] bool sync(const std::string& path);
  void remove(const std::string& path);
  // A file that was there before the disk was watched.
  void adopt(const std::string& path, std::vector<char> bytes);

private:
  [[nodiscard]] bool goes_on();

  std::map<std::string, lossy_file> files_;
  std::int64_t fatal_{0};
  honesty how_{honesty::honest};
  std::int64_t changes_{0};
  bool gone_{false};
  bool full_{false};
};

} // namespace qb
