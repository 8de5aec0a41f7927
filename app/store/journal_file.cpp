// The journal's SQL.
#include "app/store/journal_file.hpp"

#include "app/store/statement.hpp"

#include <fmt/core.h>

namespace qb {

namespace {

constexpr const char* format_name = "quarterbreath-journal";
constexpr const char* this_version = "1";

constexpr const char* make_tables =
    "BEGIN IMMEDIATE;"
    "CREATE TABLE IF NOT EXISTS meta(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
    "CREATE TABLE IF NOT EXISTS event(seq INTEGER PRIMARY KEY, body TEXT NOT NULL,"
    " hash TEXT NOT NULL) STRICT;"
    "CREATE TABLE IF NOT EXISTS draft(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
    "INSERT OR IGNORE INTO meta VALUES('format','quarterbreath-journal'),('version','1');"
    "COMMIT;";

std::string meta(sqlite3* db, const char* key) {
  statement ask(db, "SELECT value FROM meta WHERE key=?1");
  ask.bind(1, std::string(key));
  return ask.step() == SQLITE_ROW ? ask.text(0) : std::string();
}

} // namespace

void journal_file::closer::operator()(sqlite3* db) const {
  sqlite3_close_v2(db);
}

journal_file::journal_file(sqlite3* db, std::string path) : db_(db), path_(std::move(path)) {}
journal_file::journal_file(journal_file&&) noexcept = default;
journal_file& journal_file::operator=(journal_file&&) noexcept = default;
journal_file::~journal_file() = default;

refusal journal_file::disk_refusal(const char* doing) const {
  return {refusal_kind::machine, path_, doing, sqlite3_errmsg(db_.get()),
          "a disk that can be written, with space left"};
}

result<journal_file> journal_file::open(const std::string& path) {
  sqlite3* raw = nullptr;
  const int code =
      sqlite3_open_v2(path.c_str(), &raw, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
  journal_file j(raw, path);
  if (code != SQLITE_OK) return tl::unexpected(j.disk_refusal("opening"));
  // Exclusive locking is the one-copy rule: it lasts as long as the process and no longer.
  const bool set =
      run_sql(raw, "PRAGMA locking_mode=EXCLUSIVE") && run_sql(raw, "PRAGMA synchronous=FULL") &&
      run_sql(raw, "PRAGMA secure_delete=ON") && run_sql(raw, "PRAGMA journal_mode=TRUNCATE");
  if (!set || !run_sql(raw, make_tables)) {
    if (sqlite3_errcode(raw) == SQLITE_BUSY)
      return tl::unexpected(refusal{refusal_kind::machine, path, "opening",
                                    "a second copy of the program using this test",
                                    "one copy at a time"});
    if (sqlite3_errcode(raw) == SQLITE_NOTADB)
      return tl::unexpected(
          refusal{refusal_kind::malformed, path, "", "another kind of file", "a test's journal"});
    return tl::unexpected(j.disk_refusal("opening"));
  }
  if (meta(raw, "format") != format_name)
    return tl::unexpected(
        refusal{refusal_kind::malformed, path, "", "another kind of file", "a test's journal"});
  if (meta(raw, "version") != this_version)
    return tl::unexpected(refusal{refusal_kind::newer, path, "version", meta(raw, "version"),
                                  fmt::format("version {}", this_version)});
  if (meta(raw, "erased") == "yes")
    return tl::unexpected(
        refusal{refusal_kind::not_now, path, "", "a test that was erased", "a test's journal"});
  statement last(raw, "SELECT coalesce(max(seq),0) FROM event");
  if (last.step() != SQLITE_ROW) return tl::unexpected(j.disk_refusal("reading"));
  j.last_seq_ = last.integer(0);
  return j;
}

result<std::vector<event_row>> journal_file::read_all() const {
  statement all(db_.get(), "SELECT seq, body, hash FROM event ORDER BY seq");
  std::vector<event_row> rows;
  int code = all.step();
  for (; code == SQLITE_ROW; code = all.step())
    rows.push_back({all.integer(0), all.text(1), all.text(2)});
  if (code != SQLITE_DONE) return tl::unexpected(disk_refusal("reading"));
  return rows;
}

result<void> journal_file::append(const std::vector<event_row>& rows) {
  if (failure_) return tl::unexpected(*failure_);
  bool good = run_sql(db_.get(), "BEGIN IMMEDIATE");
  if (good) {
    statement put(db_.get(), "INSERT INTO event VALUES(?1,?2,?3)");
    for (const event_row& row : rows) {
      put.bind(1, row.seq).bind(2, row.body).bind(3, row.hash);
      good = good && put.step() == SQLITE_DONE;
      put.again();
    }
  }
  good = good && run_sql(db_.get(), "COMMIT");
  if (!good) {
    failure_ = disk_refusal("writing");
    if (sqlite3_get_autocommit(db_.get()) == 0 && !run_sql(db_.get(), "ROLLBACK"))
      failure_->found += " (and the write could not be taken back)";
    return tl::unexpected(*failure_);
  }
  if (!rows.empty()) last_seq_ = rows.back().seq;
  return {};
}

result<void> journal_file::erase() {
  if (failure_) return tl::unexpected(*failure_);
  const bool gone = run_sql(db_.get(), "BEGIN IMMEDIATE;"
                                       "DELETE FROM event;"
                                       "DELETE FROM draft;"
                                       "INSERT OR REPLACE INTO meta VALUES('erased','yes');"
                                       "COMMIT;");
  const refusal why = disk_refusal(gone ? "" : "erasing");
  if (gone) {
    failure_ = refusal{refusal_kind::not_now, path_, "", "a test that was erased", "another test"};
    return {};
  }
  if (sqlite3_get_autocommit(db_.get()) == 0 && !run_sql(db_.get(), "ROLLBACK")) failure_ = why;
  return tl::unexpected(why);
}

bool is_erased_journal(const std::string& path) {
  sqlite3* raw = nullptr;
  const int code = sqlite3_open_v2(path.c_str(), &raw, SQLITE_OPEN_READONLY, nullptr);
  const bool erased = code == SQLITE_OK && meta(raw, "erased") == "yes";
  sqlite3_close_v2(raw);
  return erased;
}

result<void> journal_file::keep_draft(const std::string& key, const std::string& value) {
  if (failure_ && failure_->kind == refusal_kind::not_now) return tl::unexpected(*failure_);
  statement put(db_.get(), value.empty() ? "DELETE FROM draft WHERE key=?1"
                                         : "INSERT INTO draft VALUES(?1,?2) "
                                           "ON CONFLICT(key) DO UPDATE SET value=?2");
  put.bind(1, key);
  if (!value.empty()) put.bind(2, value);
  if (put.step() != SQLITE_DONE) return tl::unexpected(disk_refusal("writing"));
  return {};
}

result<std::map<std::string, std::string>> journal_file::drafts() const {
  statement all(db_.get(), "SELECT key, value FROM draft");
  std::map<std::string, std::string> out;
  int code = all.step();
  for (; code == SQLITE_ROW; code = all.step())
    out[all.text(0)] = all.text(1);
  if (code != SQLITE_DONE) return tl::unexpected(disk_refusal("reading"));
  return out;
}

} // namespace qb
