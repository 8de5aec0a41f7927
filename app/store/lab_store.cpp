// The store's SQL.
#include "app/store/lab_store.hpp"

#include "app/store/forgotten_tests.hpp"
#include "app/store/kit_folding.hpp"
#include "app/store/statement.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>
#include <tuple>

namespace qb::inline store {

namespace {

constexpr const char* format_name = "quarterbreath-lab-store";
constexpr const char* first_version = "1";
constexpr const char* this_version = "2";

constexpr const char* make_tables =
    "CREATE TABLE meta(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
    "CREATE TABLE log(test_id TEXT NOT NULL, events INTEGER NOT NULL, head TEXT NOT NULL,"
    " kit_number TEXT NOT NULL, protocol TEXT NOT NULL, started TEXT NOT NULL,"
    " rehearsal INTEGER NOT NULL, matches INTEGER NOT NULL, filled INTEGER NOT NULL,"
    " tubes INTEGER NOT NULL, body TEXT NOT NULL, PRIMARY KEY(test_id, events)) STRICT;"
    "CREATE INDEX log_of_kit ON log(kit_number);"
    "INSERT INTO meta VALUES('format','quarterbreath-lab-store'),('version','2');";

constexpr const char* make_codes =
    "CREATE TABLE IF NOT EXISTS code(test_id TEXT NOT NULL, events INTEGER NOT NULL,"
    " head TEXT NOT NULL, kit_number TEXT NOT NULL, protocol TEXT NOT NULL, started TEXT NOT NULL,"
    " rehearsal INTEGER NOT NULL, matches INTEGER NOT NULL, filled INTEGER NOT NULL,"
    " tubes INTEGER NOT NULL, body TEXT NOT NULL, PRIMARY KEY(test_id, events)) STRICT;";

// Makes the tables, unless another import did between the look and the lock.
result<void> made_tables(store::database& db) {
  store::transaction making(db);
  if (!making.begun()) return tl::unexpected(making.failed("opening"));
  const auto blank = db.is_blank();
  if (!blank) return tl::unexpected(blank.error());
  if ((*blank && !(db.run(make_tables) && store::packed_bodies::make_tables(db))) ||
      !making.commit())
    return tl::unexpected(making.failed("opening"));
  return {};
}

// A trigger or a view runs somebody else's SQL with our writes and reads, a virtual table somebody
// else's code; we make none.
std::optional<refusal> no_to_foreign_code(const store::database& db) {
  statement ask = db.prepare("SELECT type, name FROM sqlite_schema WHERE type IN ('trigger','view')"
                             " OR sql LIKE 'CREATE VIRTUAL%' ORDER BY type, name");
  if (ask.step() != SQLITE_ROW) return std::nullopt;
  return refusal{refusal_kind::malformed, db.path(), "",
                 fmt::format("{} {}, which this program did not make", ask.text(0), ask.text(1)),
                 "a store without (quarterbreath-lab check names all of them)"};
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

constexpr const char* make_asides =
    "CREATE TABLE IF NOT EXISTS log_aside(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
    " test_id TEXT NOT NULL, kit_number TEXT NOT NULL, digest TEXT NOT NULL,"
    " body TEXT NOT NULL, UNIQUE(test_id, digest)) STRICT";

bool insert_aside(store::database& db, const log_row& row, const std::string& digest) {
  statement put = db.prepare("INSERT OR IGNORE INTO log_aside VALUES(NULL,?1,?2,?3,?4)");
  put.bind(1, row.test_id).bind(2, row.kit_number).bind(3, digest).bind(4, row.body);
  return put.step() == SQLITE_DONE;
}

bool insert(store::database& db, const char* into, const log_row& r, const std::string& body) {
  kept_statement put =
      db.kept(fmt::format("INSERT INTO {} VALUES(?1,?2,?3,?4,?5,?6,?7,?8,?9,?10,?11)", into));
  put->bind(1, r.test_id).bind(2, r.events).bind(3, r.head).bind(4, r.kit_number);
  put->bind(5, r.protocol).bind(6, r.started).bind(7, std::int64_t{r.rehearsal});
  put->bind(8, std::int64_t{r.matches}).bind(9, r.filled).bind(10, r.tubes).bind(11, body);
  return put->step() == SQLITE_DONE;
}

} // namespace

std::optional<refusal> no_to_lab_format(const store::database& db) {
  return db.no_to_format(format_name, {first_version, this_version});
}

result<lab_store> lab_store::open(const std::string& path) {
  auto db = store::database::open(path, lab_file_rules);
  if (!db) return tl::unexpected(db.error());
  // Looked at before anything is written, so that a file of another kind stays as it is.
  const auto blank = db->is_blank();
  if (!blank) return tl::unexpected(blank.error());
  if (*blank) {
    if (const auto made = made_tables(*db); !made) return tl::unexpected(made.error());
  }
  if (auto no = no_to_lab_format(*db)) return tl::unexpected(*no);
  if (auto no = no_to_foreign_code(*db)) return tl::unexpected(*no);
  if (const auto folded = store::fold_kit_numbers(*db); !folded)
    return tl::unexpected(folded.error());
  return lab_store(std::move(*db));
}

result<void> lab_store::group::keep() {
  if (!write_.commit()) return tl::unexpected(write_.failed("writing"));
  return {};
}

result<void> lab_store::grow() {
  const bool is_of_before = db_.meta("version") != this_version;
  const auto again = db_.has_table("frozen_rules_again");
  if (!again) return tl::unexpected(again.error());
  if (!is_of_before && *again) return {};
  if (is_of_before)
    if (const auto copied = db_.keep_copy(); !copied) return copied;
  store::transaction growing(db_);
  const bool grown =
      growing.begun() && store::packed_bodies::make_tables(db_) &&
      db_.run(fmt::format("UPDATE meta SET value='{}' WHERE key='version'", this_version)) &&
      growing.commit();
  if (!grown) return tl::unexpected(growing.failed("writing"));
  return {};
}

bool lab_store::insert_log(const log_row& row) {
  if (!store::packed_bodies::can_pack(row.body)) return insert(db_, "log", row, row.body);
  return insert(db_, "log", row, "") &&
         bodies_.put(db_, row.test_id, row.events, row.body, row.shared);
}

void lab_store::unpack(log_row& row) const {
  if (!row.body.empty() || row.by_code) return;
  if (auto text = bodies_.get(db_, row.test_id, row.events)) row.body = std::move(*text);
}

result<bool> lab_store::judge_and_insert(table into, const log_row& row, const judge& keep) {
  const auto gone = was_forgotten(row.test_id);
  if (!gone) return tl::unexpected(gone.error());
  if (*gone)
    return tl::unexpected(refusal{refusal_kind::not_now, "", "test", "a test that was forgotten",
                                  "another: somebody asked that nothing of this one be kept"});
  const auto kept = select(into, which_tests::of_test_id, row.test_id, true);
  if (!kept) return tl::unexpected(kept.error());
  auto verdict = keep(kept->empty() ? nullptr : &kept->front());
  if (!verdict || !*verdict) return verdict;
  const bool logs = into == table::log;
  const bool good =
      logs ? insert_log(row) : db_.run(make_codes) && insert(db_, "code", row, row.body);
  if (!good) return tl::unexpected(db_.failed("writing"));
  return verdict;
}

result<bool> lab_store::put_into(table into, const log_row& row, const judge& keep) {
  if (!db_.in_transaction()) {
    bodies_.forget_ids();
    const auto grown = into == table::log ? grow() : result<void>();
    if (!grown) return tl::unexpected(grown.error());
  }
  store::transaction write(db_);
  if (!write.begun()) return tl::unexpected(write.failed("writing"));
  auto verdict = judge_and_insert(into, row, keep);
  if (verdict && *verdict && !write.commit()) return tl::unexpected(write.failed("writing"));
  if (!write.take_back()) return tl::unexpected(db_.failed("taking a write back"));
  if (!verdict) bodies_.forget_ids();
  return verdict;
}

result<bool> lab_store::put(const log_row& row, const judge& keep) {
  return put_into(table::log, row, keep);
}

result<bool> lab_store::put_code(const log_row& row, const judge& keep) {
  return put_into(table::code, row, keep);
}

namespace {

const char* condition_of(which_tests which) {
  switch (which) {
  case which_tests::all: return "";
  case which_tests::of_kit_number: return "AND kit_number = ?1";
  case which_tests::of_test_id: return "AND test_id = ?1";
  }
  QB_BELIEVE(false);
  return "";
}

// The rows of a statement; nothing where one of its steps fails.
std::optional<std::vector<log_row>> rows_of(statement& ask, which_tests which,
                                            const std::string& id) {
  std::vector<log_row> rows;
  if (which != which_tests::all) ask.bind(1, id);
  if (!ask.each_row([&] { rows.push_back(row_of(ask)); })) return std::nullopt;
  return rows;
}

// Of rows by their test and events, the last of each test, in the order of a list.
std::vector<log_row> latest_of(const std::vector<log_row>& all) {
  std::vector<log_row> out;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (i + 1 == all.size() || all[i + 1].test_id != all[i].test_id) out.push_back(all[i]);
  std::sort(out.begin(), out.end(), [](const log_row& a, const log_row& b) {
    return std::tie(a.kit_number, a.started, a.test_id) <
           std::tie(b.kit_number, b.started, b.test_id);
  });
  return out;
}

} // namespace

result<std::vector<log_row>> lab_store::select(table from, which_tests which, const std::string& id,
                                               bool bodies) const {
  const char* name = from == table::log ? "log" : "code";
  const auto there = db_.has_table(name);
  if (!there) return tl::unexpected(there.error());
  if (!*there) return std::vector<log_row>();
  const std::string columns =
      fmt::format("SELECT test_id, events, head, kit_number, protocol, started, rehearsal, matches,"
                  " filled, tubes, {} FROM {} AS l ",
                  bodies ? "body" : "''", name);
  kept_statement latest = db_.kept(
      fmt::format("{} WHERE events = (SELECT max(events) FROM {} WHERE test_id = l.test_id) {}"
                  " ORDER BY kit_number, started, test_id",
                  columns, name, condition_of(which)));
  auto rows = rows_of(*latest, which, id);
  const refusal no = rows ? refusal() : db_.failed("reading");
  // A damaged page is of an index or of the table. Past the one, the table is read by itself; past
  // the other, the indexes still tell which tests there are, and only that page's cannot be read.
  if (!rows) {
    statement all = db_.prepare(fmt::format("{} NOT INDEXED WHERE true {} ORDER BY test_id, events",
                                            columns, condition_of(which)));
    rows = rows_of(all, which, id);
    if (rows) rows = latest_of(*rows);
  }
  if (!rows && which == which_tests::all && from == table::log) rows = named_by_indexes();
  if (!rows) return tl::unexpected(no);
  for (log_row& row : *rows) {
    row.by_code = from == table::code;
    if (bodies) unpack(row);
  }
  return std::move(*rows);
}

std::optional<std::vector<log_row>> lab_store::named_by_indexes() const {
  std::map<std::int64_t, std::string> kits;
  statement of_kits = db_.prepare("SELECT rowid, kit_number FROM log INDEXED BY log_of_kit");
  if (!of_kits.each_row([&] { kits[of_kits.integer(0)] = of_kits.text(1); })) return std::nullopt;
  std::vector<log_row> rows;
  statement of_tests = db_.prepare("SELECT rowid, test_id, events FROM log"
                                   " INDEXED BY sqlite_autoindex_log_1 ORDER BY test_id, events");
  const bool read = of_tests.each_row([&] {
    log_row& row = rows.emplace_back();
    row.kit_number = kits[of_tests.integer(0)];
    row.test_id = of_tests.text(1);
    row.events = of_tests.integer(2);
  });
  if (!read) return std::nullopt;
  rows = latest_of(rows);
  for (log_row& row : rows) {
    statement one = db_.prepare("SELECT test_id, events, head, kit_number, protocol, started,"
                                " rehearsal, matches, filled, tubes, '' FROM log"
                                " WHERE test_id = ?1 ORDER BY events DESC LIMIT 1");
    auto whole = rows_of(one, which_tests::of_test_id, row.test_id);
    if (whole && !whole->empty()) row = std::move(whole->front());
  }
  return latest_of(rows);
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

result<void> lab_store::set_aside(const log_row& row, const std::string& digest) {
  return write(make_asides, [&](store::database& db) { return insert_aside(db, row, digest); });
}

result<std::vector<log_row>> lab_store::versions_of(const std::string& test_id) const {
  std::vector<log_row> rows;
  kept_statement ask = db_.kept(
      "SELECT test_id, events, head, kit_number, protocol, started, rehearsal, matches, filled,"
      " tubes, body FROM log WHERE test_id = ?1 ORDER BY events");
  ask->bind(1, test_id);
  if (!ask->each_row([&] { rows.push_back(row_of(*ask)); }))
    return tl::unexpected(db_.failed("reading"));
  for (log_row& row : rows)
    unpack(row);
  return rows;
}

result<std::optional<log_row>> lab_store::only_version(const std::string& test_id) const {
  auto rows = versions_of(test_id);
  if (!rows) return tl::unexpected(rows.error());
  if (rows->size() != 1) return std::nullopt;
  for (const char* beside : {"signature", "log_signature", "log_aside", "log_choice", "code"}) {
    const auto there = db_.has_table(beside);
    if (!there) return tl::unexpected(there.error());
    if (!*there) continue;
    kept_statement ask = db_.kept(fmt::format("SELECT 1 FROM {} WHERE test_id = ?1", beside));
    ask->bind(1, test_id);
    const int code = ask->step();
    if (code == SQLITE_ROW) return std::nullopt;
    if (code != SQLITE_DONE) return tl::unexpected(db_.failed("reading"));
  }
  return std::move(rows->front());
}

result<void> lab_store::move_versions(const std::vector<version_row>& count,
                                      const std::vector<version_row>& aside) {
  if (!db_.in_transaction())
    if (auto grown = grow(); !grown) return grown;
  return write(make_asides, [&](store::database& db) {
    for (const version_row& v : aside) {
      statement out = db.prepare("DELETE FROM log WHERE test_id=?1 AND events=?2");
      out.bind(1, v.row.test_id).bind(2, v.row.events);
      if (out.step() != SQLITE_DONE || !bodies_.remove(db, v.row.test_id, v.row.events) ||
          !insert_aside(db, v.row, v.digest))
        return false;
    }
    for (const version_row& v : count) {
      statement out = db.prepare("DELETE FROM log_aside WHERE test_id=?1 AND digest=?2");
      out.bind(1, v.row.test_id).bind(2, v.digest);
      if (out.step() != SQLITE_DONE || !insert_log(v.row)) return false;
    }
    return true;
  });
}

result<bool> lab_store::was_forgotten(const std::string& test_id) const {
  return store::is_forgotten(db_, test_id);
}

} // namespace qb::inline store
