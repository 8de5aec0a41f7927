// The journal's SQL.
#include "app/store/journal_file.hpp"

#include "app/machine/overwritten.hpp"
#include "app/store/journal_key.hpp"
#include "app/store/sealed_rows.hpp"
#include "app/store/statement.hpp"

#include <filesystem>

namespace qb::inline store {

namespace {

constexpr const char* format_name = "quarterbreath-journal";
constexpr const char* unsealed_version = "1";
constexpr const char* this_version = "2";

constexpr const char* make_tables =
    "CREATE TABLE IF NOT EXISTS meta(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
    "CREATE TABLE IF NOT EXISTS event(seq INTEGER PRIMARY KEY, sealed BLOB NOT NULL) STRICT;"
    "CREATE TABLE IF NOT EXISTS draft(key TEXT PRIMARY KEY, sealed BLOB NOT NULL) STRICT;"
    "INSERT OR IGNORE INTO meta VALUES('format','quarterbreath-journal'),('version','2');";

// Exclusive locking is the one-copy rule: it lasts as long as the process and no longer.
constexpr store::file_rules rules{
    store::access::make,
    std::chrono::milliseconds{0},
    "PRAGMA locking_mode=EXCLUSIVE; PRAGMA synchronous=FULL; PRAGMA secure_delete=ON;"
    "PRAGMA temp_store=MEMORY",
    "a test's journal",
    "a second copy of the program using this test",
    "one copy at a time",
    "a disk that can be written, with space left",
    "PERSIST"};

// To look without holding it, or waiting for who does.
constexpr store::file_rules looking{store::access::read, rules.patience,   "",        rules.kind,
                                    rules.holder,        rules.one_holder, rules.disk};

result<void> made_tables(store::database& db) {
  store::transaction making(db);
  if (making.begun() && db.run(make_tables) && making.commit()) return {};
  return tl::unexpected(making.failed("opening"));
}

bool is_yet_to_be_made(const std::string& path) {
  std::error_code none;
  return !std::filesystem::exists(path, none) || std::filesystem::file_size(path, none) == 0;
}

// A folder that is not there is the machine's trouble too.
refusal not_to_be_made(const std::string& path, refusal no) {
  if (no.kind == refusal_kind::missing) no.kind = refusal_kind::machine;
  no.file = path;
  return no;
}

refusal erased_already(const std::string& path) {
  return {refusal_kind::not_now, path, "", "a test that was erased", rules.kind};
}

} // namespace

result<void> journal_file::stop(refusal why) {
  failure_ = std::move(why);
  return tl::unexpected(*failure_);
}

result<journal_file> journal_file::open(const std::string& path) {
  // The key is on the disk before anything that needs it.
  if (is_yet_to_be_made(path))
    if (const auto made = make_journal_key(path); !made)
      return tl::unexpected(not_to_be_made(path, made.error()));
  auto db = store::database::open(path, rules);
  if (!db) return tl::unexpected(db.error());
  journal_file j(std::move(*db));
  if (const auto made = made_tables(j.db_); !made) return tl::unexpected(made.error());
  if (auto no = j.db_.no_to_format(format_name, {unsealed_version, this_version}))
    return tl::unexpected(*no);
  if (j.db_.meta("erased") == "yes") return tl::unexpected(erased_already(path));
  if (j.db_.meta("version") != unsealed_version) {
    auto key = open_journal_key(path);
    if (!key) return tl::unexpected(key.error());
    j.key_ = std::move(*key);
  }
  statement last = j.db_.prepare("SELECT coalesce(max(seq),0) FROM event");
  if (last.step() != SQLITE_ROW) return tl::unexpected(j.db_.failed("reading"));
  j.last_seq_ = last.integer(0);
  return j;
}

namespace {

bool is_sound(const store::database& db) {
  statement all = db.prepare("PRAGMA integrity_check(1)");
  return all.step() == SQLITE_ROW && all.text(0) == "ok";
}

} // namespace

result<void> journal_file::check() const {
  if (is_sound(db_)) return {};
  return tl::unexpected(
      refusal{refusal_kind::malformed, db_.path(), "", "a damaged file", "a whole one"});
}

result<std::vector<event_row>> journal_file::read_all() const {
  statement all = db_.prepare(key_ ? "SELECT seq, sealed FROM event ORDER BY seq"
                                   : "SELECT seq, body, hash FROM event ORDER BY seq");
  std::vector<event_row> rows;
  std::optional<std::int64_t> shut;
  const auto take = [&] {
    const std::int64_t seq = all.integer(0);
    auto row = key_ ? open_event(seq, all.bytes(1), *key_)
                    : std::optional(event_row{seq, all.text(1), all.text(2)});
    if (row)
      rows.push_back(std::move(*row));
    else
      shut = shut.value_or(seq);
  };
  if (!all.each_row(take)) return tl::unexpected(db_.failed("reading"));
  if (shut)
    return tl::unexpected(refusal{refusal_kind::malformed, db_.path(),
                                  "event " + std::to_string(*shut), "a row that was changed",
                                  "the row as it was sealed"});
  return rows;
}

namespace {

bool insert(store::database& db, const std::vector<event_row>& rows,
            const std::optional<journal_secret>& key) {
  statement put =
      db.prepare(key ? "INSERT INTO event VALUES(?1,?2)" : "INSERT INTO event VALUES(?1,?2,?3)");
  for (const event_row& row : rows) {
    put.bind(1, row.seq);
    if (key)
      put.bind_bytes(2, seal_event(row, *key));
    else
      put.bind(2, row.body).bind(3, row.hash);
    if (put.step() != SQLITE_DONE) return false;
    put.again();
  }
  return true;
}

} // namespace

result<void> journal_file::append(const std::vector<event_row>& rows) {
  if (failure_) return tl::unexpected(*failure_);
  store::transaction write(db_);
  if (!write.begun() || !insert(db_, rows, key_) || !write.commit())
    return stop(write.failed("writing"));
  if (!rows.empty()) last_seq_ = rows.back().seq;
  return {};
}

result<void> journal_file::erase() {
  if (failure_) return tl::unexpected(*failure_);
  if (key_)
    if (const auto destroyed = destroy_journal_key(db_.path()); !destroyed)
      return stop(destroyed.error());
  store::transaction write(db_);
  const bool gone = write.begun() &&
                    db_.run("DELETE FROM event; DELETE FROM draft;"
                            "INSERT OR REPLACE INTO meta VALUES('erased','yes')") &&
                    write.commit();
  // Without its key what stays of the rows is noise, and goes with the file.
  if (!gone && !key_) return stop(write.failed("erasing"));
  // The rollback journal holds the pages as they were. It stays in place (PERSIST), so that its own
  // blocks are overwritten, and goes with the journal.
  overwrite_in_place(db_.path() + "-journal");
  failure_ = erased_already(db_.path());
  failure_->expected = "another test";
  return {};
}

bool is_held_elsewhere(const refusal& no) {
  return no.kind == refusal_kind::machine && no.found == rules.holder;
}

std::optional<std::int64_t> last_of_sound_journal(const std::string& path) {
  const auto db = store::database::open(path, looking);
  if (!db || db->no_to_format(format_name, {unsealed_version, this_version}) || !is_sound(*db))
    return std::nullopt;
  statement last = db->prepare("SELECT coalesce(max(seq),0) FROM event");
  return last.step() == SQLITE_ROW ? std::optional<std::int64_t>(last.integer(0)) : std::nullopt;
}

bool is_erased_journal(const std::string& path) {
  if (find_journal_key(path).destroyed) return true;
  const auto db = store::database::open(path, looking);
  return db && db->meta("erased") == "yes";
}

result<void> journal_file::keep_draft(const std::string& key, const std::string& value) {
  if (failure_) return tl::unexpected(*failure_);
  statement put = db_.prepare(value.empty() ? "DELETE FROM draft WHERE key=?1"
                                            : "INSERT OR REPLACE INTO draft VALUES(?1,?2)");
  put.bind(1, key);
  if (!value.empty() && key_) put.bind_bytes(2, seal_draft(key, value, *key_));
  if (!value.empty() && !key_) put.bind(2, value);
  if (put.step() != SQLITE_DONE) return stop(db_.failed("writing"));
  return {};
}

result<std::map<std::string, std::string>> journal_file::drafts() const {
  statement all = db_.prepare("SELECT * FROM draft");
  std::map<std::string, std::string> out;
  const auto take = [&] {
    const std::string name = all.text(0);
    auto value = key_ ? open_draft(name, all.bytes(1), *key_) : std::optional(all.text(1));
    if (value) out[name] = std::move(*value);
  };
  if (!all.each_row(take)) return tl::unexpected(db_.failed("reading"));
  return out;
}

} // namespace qb::inline store
