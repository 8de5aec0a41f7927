// SQLite's online backup. One step takes all pages, so that whoever writes meanwhile waits, as for
// any other hand that reads, and never has the copy begin anew.
#include "app/machine/pending_file.hpp"
#include "app/store/database.hpp"
#include "app/store/statement.hpp"

#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>

namespace qb::inline store {

namespace {

refusal no_copy(const std::string& path, const char* found) {
  return {refusal_kind::machine, path, "copying", found, "a disk that takes the copy"};
}

// Of the file that is copied into: nothing of it counts before it is renamed, so that it needs no
// journal on the disk, and is synced once when it is whole.
constexpr file_rules copy_rules{access::write,
                                std::chrono::milliseconds{0},
                                "PRAGMA synchronous=OFF; PRAGMA journal_mode=MEMORY",
                                "an empty file",
                                "another hand",
                                "a copy that nobody else holds",
                                "a disk that takes the copy"};

} // namespace

result<void> database::copy_into(const std::string& path, const std::string& told) const {
  auto copy = open(path, copy_rules);
  if (!copy) return tl::unexpected(no_copy(told, copy.error().found.c_str()));
  sqlite3_backup* all = sqlite3_backup_init(copy->db_.get(), "main", db_.get(), "main");
  if (all == nullptr) return tl::unexpected(no_copy(told, sqlite3_errmsg(copy->db_.get())));
  const int last = sqlite3_backup_step(all, -1);
  (void)sqlite3_backup_finish(all); // says again what the step said
  if (last == SQLITE_BUSY || last == SQLITE_LOCKED)
    return tl::unexpected(
        refusal{refusal_kind::machine, path_, "copying", rules_.holder, rules_.one_holder});
  if (last != SQLITE_DONE) return tl::unexpected(no_copy(told, sqlite3_errstr(last)));
  return {};
}

result<void> database::copy_to(const std::string& path) const {
  struct stat found {};
  if (::lstat(path.c_str(), &found) == 0)
    return tl::unexpected(refusal{refusal_kind::not_now, path, "", "a file that is there already",
                                  "the name of a new one"});
  auto file = pending_file::beside(path);
  if (!file) return tl::unexpected(file.error());
  if (auto copied = copy_into(file->temporary(), path); !copied) return copied;
  if (auto synced = file->sync(); !synced) return synced;
  if (auto put = file->put(in_its_place::nothing); !put) return put;
  return file->sync_name();
}

result<void> database::keep_copy() const {
  constexpr int most_copies = 100;
  for (int n = 1; n < most_copies; ++n) {
    const auto done = copy_to(fmt::format("{}.before-{}", path_, n));
    if (done || done.error().kind != refusal_kind::not_now) return done;
  }
  return tl::unexpected(refusal{refusal_kind::machine, path_, "a copy of the store",
                                "too many copies beside it", "fewer"});
}

} // namespace qb::inline store
