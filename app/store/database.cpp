// SQLite's calls for a connection, and its codes as refusals.
#include "app/store/database.hpp"

#include "app/store/statement.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>
#include <sys/stat.h>
#include <utility>

namespace qb::inline store {

namespace {

int flags_of(access mode) {
  switch (mode) {
  case access::read: return SQLITE_OPEN_READONLY;
  case access::write: return SQLITE_OPEN_READWRITE;
  case access::make: return SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
  }
  return SQLITE_OPEN_READONLY;
}

// A file says itself what belongs to it: triggers that run with our writes, views in the place of
// tables, further files, a schema that is written by hand. We make none of these and obey none.
bool trusts_nothing(sqlite3* db) {
  constexpr std::array<std::pair<int, int>, 4> wanted{{{SQLITE_DBCONFIG_DEFENSIVE, 1},
                                                       {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
                                                       {SQLITE_DBCONFIG_ENABLE_TRIGGER, 0},
                                                       {SQLITE_DBCONFIG_ENABLE_VIEW, 0}}};
  sqlite3_limit(db, SQLITE_LIMIT_ATTACHED, 0);
  return std::all_of(wanted.begin(), wanted.end(), [db](const auto& one) {
    return sqlite3_db_config(db, one.first, one.second, nullptr) == SQLITE_OK;
  });
}

// SQLite would wait at a pipe, and read of a device what it gives.
bool is_another_kind(const std::string& path) {
  struct stat about {};
  return ::stat(path.c_str(), &about) == 0 && !S_ISREG(about.st_mode);
}

} // namespace

void database::closer::operator()(sqlite3* db) const {
  sqlite3_close_v2(db);
}

database::database(sqlite3* db, std::string path, const file_rules& rules)
    : db_(db), path_(std::move(path)), rules_(rules) {}

result<database> database::open(const std::string& path, const file_rules& rules) {
  if (is_another_kind(path))
    return tl::unexpected(
        refusal{refusal_kind::malformed, path, "", "a folder, a pipe or a device", rules.kind});
  sqlite3* raw = nullptr;
  const int code = sqlite3_open_v2(path.c_str(), &raw, flags_of(rules.mode), nullptr);
  database db(raw, path, rules);
  if (code == SQLITE_CANTOPEN && rules.mode != access::make)
    return tl::unexpected(
        refusal{refusal_kind::missing, path, "", "nothing that can be opened", rules.kind});
  if (code != SQLITE_OK) return tl::unexpected(db.failed("opening"));
  sqlite3_busy_timeout(raw, static_cast<int>(rules.patience.count()));
  if (!trusts_nothing(raw) || !db.run(rules.pragmas)) return tl::unexpected(db.failed("opening"));
  return db;
}

bool database::run(const std::string& sql) {
  return run_sql(db_.get(), sql.c_str());
}

bool database::run_kept(const std::string& sql) {
  return kept(sql)->step() == SQLITE_DONE;
}

database::database(database&&) noexcept = default;
database& database::operator=(database&&) noexcept = default;
database::~database() = default;

kept_statement database::kept(const std::string& sql) const {
  auto& there = kept_[sql];
  if (!there || !there->ok()) there = std::make_unique<statement>(db_.get(), sql.c_str());
  return kept_statement(*there);
}

statement database::prepare(const std::string& sql) const {
  return {db_.get(), sql.c_str()};
}

refusal database::another_kind() const {
  return {refusal_kind::malformed, path_, "", "another kind of file", rules_.kind};
}

refusal database::failed(const char* doing) const {
  switch (sqlite3_errcode(db_.get())) {
  case SQLITE_BUSY: return {refusal_kind::machine, path_, doing, rules_.holder, rules_.one_holder};
  case SQLITE_NOTADB: return another_kind();
  default: return {refusal_kind::machine, path_, doing, sqlite3_errmsg(db_.get()), rules_.disk};
  }
}

std::string database::meta(const char* key) const {
  kept_statement ask = kept("SELECT value FROM meta WHERE key=?1");
  ask->bind(1, std::string(key));
  return ask->step() == SQLITE_ROW ? ask->text(0) : std::string();
}

std::optional<refusal> database::no_to_format(const char* format,
                                              std::initializer_list<const char*> versions) const {
  if (meta("format") != format) return another_kind();
  const std::string found = meta("version");
  if (std::find(versions.begin(), versions.end(), found) == versions.end())
    return refusal{refusal_kind::newer, path_, "version", found,
                   fmt::format("version {}", *(versions.end() - 1))};
  return std::nullopt;
}

result<bool> database::has_table(const char* name) const {
  kept_statement ask = kept("SELECT 1 FROM sqlite_schema WHERE type='table' AND name=?1");
  ask->bind(1, std::string(name));
  const int code = ask->step();
  if (code != SQLITE_ROW && code != SQLITE_DONE) return tl::unexpected(failed("reading"));
  return code == SQLITE_ROW;
}

result<bool> database::is_blank() const {
  statement count = prepare("SELECT count(*) FROM sqlite_schema");
  if (count.step() != SQLITE_ROW) return tl::unexpected(failed("opening"));
  return count.integer(0) == 0;
}

std::int64_t database::last_entry() const {
  return sqlite3_last_insert_rowid(db_.get());
}

std::int64_t database::changes() const {
  return sqlite3_changes(db_.get());
}

bool database::in_transaction() const {
  return sqlite3_get_autocommit(db_.get()) == 0;
}

// The mode of the journal belongs to the connection, not to the file, and is set before the first
// write: a file that is only looked at stays as it is.
transaction::transaction(database& db)
    : db_(db),
      inner_(db.in_transaction()),
      begun_(inner_ ? db.run_kept("SAVEPOINT part")
                    : db.run(fmt::format("PRAGMA journal_mode={}; BEGIN IMMEDIATE",
                                         db.rules().journal))),
      open_(begun_) {}

bool transaction::commit() {
  const bool done = inner_ ? db_.run_kept("RELEASE part") : db_.run("COMMIT");
  open_ = open_ && !done;
  return done;
}

// A failed step may have taken all of it back already.
bool transaction::take_back() {
  const bool was_open = open_;
  open_ = false;
  if (!was_open || !db_.in_transaction()) return true;
  if (!inner_) return db_.run("ROLLBACK");
  return db_.run_kept("ROLLBACK TO part") && db_.run_kept("RELEASE part");
}

refusal transaction::failed(const char* doing) {
  refusal no = db_.failed(doing);
  if (!take_back()) no.found += " (and the write could not be taken back)";
  return no;
}

} // namespace qb::inline store
