// The store's SQL.
#include "app/store/lab_store.hpp"

#include "app/store/statement.hpp"

#include <fmt/core.h>

namespace qb {

namespace {

constexpr const char* format_name = "quarterbreath-lab-store";
constexpr const char* this_version = "1";
constexpr int patience_ms = 5000; // how long another import may hold the file

constexpr const char* make_tables =
    "CREATE TABLE meta(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
    "CREATE TABLE log(test_id TEXT NOT NULL, events INTEGER NOT NULL, head TEXT NOT NULL,"
    " kit_number TEXT NOT NULL, protocol TEXT NOT NULL, started TEXT NOT NULL,"
    " rehearsal INTEGER NOT NULL, matches INTEGER NOT NULL, filled INTEGER NOT NULL,"
    " tubes INTEGER NOT NULL, body TEXT NOT NULL, PRIMARY KEY(test_id, events)) STRICT;"
    "CREATE INDEX log_of_kit ON log(kit_number);"
    "INSERT INTO meta VALUES('format','quarterbreath-lab-store'),('version','1');";

constexpr const char* make_codes =
    "CREATE TABLE IF NOT EXISTS code(test_id TEXT NOT NULL, events INTEGER NOT NULL,"
    " head TEXT NOT NULL, kit_number TEXT NOT NULL, protocol TEXT NOT NULL, started TEXT NOT NULL,"
    " rehearsal INTEGER NOT NULL, matches INTEGER NOT NULL, filled INTEGER NOT NULL,"
    " tubes INTEGER NOT NULL, body TEXT NOT NULL, PRIMARY KEY(test_id, events)) STRICT;";

refusal other_kind(const std::string& path) {
  return {refusal_kind::malformed, path, "", "another kind of file", "a laboratory's store"};
}

std::string meta(sqlite3* db, const char* key) {
  statement ask(db, "SELECT value FROM meta WHERE key=?1");
  ask.bind(1, std::string(key));
  return ask.step() == SQLITE_ROW ? ask.text(0) : std::string();
}

// Whether the file holds nothing at all yet; nothing where that cannot be read.
std::optional<bool> is_blank(sqlite3* db) {
  statement count(db, "SELECT count(*) FROM sqlite_schema");
  if (count.step() != SQLITE_ROW) return std::nullopt;
  return count.integer(0) == 0;
}

log_row row_of(const statement& s) {
  log_row r;
  r.test_id = s.text(0);
  r.events = s.integer(1);
  r.head = s.text(2);
  r.kit_number = s.text(3);
  r.protocol = s.text(4);
  r.started = s.text(5);
  r.rehearsal = s.integer(6) != 0;
  r.matches = s.integer(7) != 0;
  r.filled = s.integer(8);
  r.tubes = s.integer(9);
  r.body = s.text(10);
  return r;
}

bool insert(sqlite3* db, const char* into, const log_row& r) {
  const std::string sql =
      fmt::format("INSERT INTO {} VALUES(?1,?2,?3,?4,?5,?6,?7,?8,?9,?10,?11)", into);
  statement put(db, sql.c_str());
  put.bind(1, r.test_id).bind(2, r.events).bind(3, r.head).bind(4, r.kit_number);
  put.bind(5, r.protocol).bind(6, r.started).bind(7, std::int64_t{r.rehearsal});
  put.bind(8, std::int64_t{r.matches}).bind(9, r.filled).bind(10, r.tubes).bind(11, r.body);
  return put.step() == SQLITE_DONE;
}

} // namespace

void lab_store::closer::operator()(sqlite3* db) const {
  sqlite3_close_v2(db);
}

lab_store::lab_store(sqlite3* db, std::string path) : db_(db), path_(std::move(path)) {}
lab_store::lab_store(lab_store&&) noexcept = default;
lab_store& lab_store::operator=(lab_store&&) noexcept = default;
lab_store::~lab_store() = default;

refusal lab_store::disk_refusal(const char* doing) const {
  if (sqlite3_errcode(db_.get()) == SQLITE_BUSY)
    return {refusal_kind::machine, path_, doing, "another import that holds the store",
            "one import at a time"};
  return {refusal_kind::machine, path_, doing, sqlite3_errmsg(db_.get()),
          "a disk that can be read and written, with space left"};
}

result<lab_store> lab_store::open(const std::string& path) {
  sqlite3* raw = nullptr;
  const int code = sqlite3_open_v2(path.c_str(), &raw, SQLITE_OPEN_READWRITE, nullptr);
  lab_store store(raw, path);
  if (code == SQLITE_CANTOPEN)
    return tl::unexpected(
        refusal{refusal_kind::missing, path, "", "no store that can be opened", "a store"});
  if (code != SQLITE_OK) return tl::unexpected(store.disk_refusal("opening"));
  sqlite3_busy_timeout(raw, patience_ms);
  // Looked at before anything is written, so that a file of another kind stays as it is.
  auto blank = is_blank(raw);
  if (!blank)
    return tl::unexpected(sqlite3_errcode(raw) == SQLITE_NOTADB ? other_kind(path)
                                                                : store.disk_refusal("opening"));
  if (!*blank && meta(raw, "format") != format_name) return tl::unexpected(other_kind(path));
  if (!*blank && meta(raw, "version") != this_version)
    return tl::unexpected(refusal{refusal_kind::newer, path, "version", meta(raw, "version"),
                                  fmt::format("version {}", this_version)});
  if (!run_sql(raw, "PRAGMA synchronous=FULL"))
    return tl::unexpected(store.disk_refusal("opening"));
  if (!*blank) return store;
  bool good = run_sql(raw, "PRAGMA journal_mode=TRUNCATE") && run_sql(raw, "BEGIN IMMEDIATE");
  // Another import may have been here between the look and the lock.
  blank = is_blank(raw);
  good = good && blank && (!*blank || run_sql(raw, make_tables)) && run_sql(raw, "COMMIT");
  if (!good) return tl::unexpected(store.disk_refusal("opening"));
  return store;
}

result<bool> lab_store::judge_and_insert(table into, const log_row& row, const judge& keep) {
  const auto kept = select(into, which_tests::of_test_id, row.test_id, true);
  if (!kept) return tl::unexpected(kept.error());
  auto verdict = keep(kept->empty() ? nullptr : &kept->front());
  if (!verdict || !*verdict) return verdict;
  const bool logs = into == table::log;
  const bool good =
      (logs || run_sql(db_.get(), make_codes)) && insert(db_.get(), logs ? "log" : "code", row);
  if (!good) return tl::unexpected(disk_refusal("writing"));
  return verdict;
}

result<bool> lab_store::put_into(table into, const log_row& row, const judge& keep) {
  // The mode of the journal belongs to the connection, not to the file.
  if (!run_sql(db_.get(), "PRAGMA journal_mode=TRUNCATE") || !run_sql(db_.get(), "BEGIN IMMEDIATE"))
    return tl::unexpected(disk_refusal("writing"));
  auto verdict = judge_and_insert(into, row, keep);
  if (verdict && *verdict && !run_sql(db_.get(), "COMMIT"))
    verdict = tl::unexpected(disk_refusal("writing"));
  if (sqlite3_get_autocommit(db_.get()) == 0 && !run_sql(db_.get(), "ROLLBACK"))
    return tl::unexpected(disk_refusal("taking a write back"));
  return verdict;
}

result<bool> lab_store::put(const log_row& row, const judge& keep) {
  return put_into(table::log, row, keep);
}

result<bool> lab_store::put_code(const log_row& row, const judge& keep) {
  return put_into(table::code, row, keep);
}

bool lab_store::has_codes() const {
  statement ask(db_.get(), "SELECT 1 FROM sqlite_schema WHERE type='table' AND name='code'");
  return ask.step() == SQLITE_ROW;
}

result<std::vector<log_row>> lab_store::select(table from, which_tests which, const std::string& id,
                                               bool bodies) const {
  std::vector<log_row> rows;
  if (from == table::code && !has_codes()) return rows;
  const std::string sql = fmt::format(
      "SELECT test_id, events, head, kit_number, protocol, started, rehearsal, matches, filled,"
      " tubes, {} FROM {} AS l WHERE events ="
      " (SELECT max(events) FROM {} WHERE test_id = l.test_id) {}"
      " ORDER BY kit_number, started, test_id",
      bodies ? "body" : "''", from == table::log ? "log" : "code",
      from == table::log ? "log" : "code",
      which == which_tests::all             ? ""
      : which == which_tests::of_kit_number ? "AND kit_number = ?1"
                                            : "AND test_id = ?1");
  statement ask(db_.get(), sql.c_str());
  if (which != which_tests::all) ask.bind(1, id);
  int code = ask.step();
  for (; code == SQLITE_ROW; code = ask.step()) {
    rows.push_back(row_of(ask));
    rows.back().by_code = from == table::code;
  }
  if (code != SQLITE_DONE) return tl::unexpected(disk_refusal("reading"));
  return rows;
}

result<std::vector<log_row>> lab_store::list() const {
  return select(table::log, which_tests::all, "", false);
}

result<std::vector<log_row>> lab_store::find(which_tests which, const std::string& id) const {
  return select(table::log, which, id, true);
}

result<std::vector<log_row>> lab_store::list_codes() const {
  return select(table::code, which_tests::all, "", false);
}

result<std::vector<log_row>> lab_store::find_codes(which_tests which, const std::string& id) const {
  return select(table::code, which, id, true);
}

} // namespace qb
