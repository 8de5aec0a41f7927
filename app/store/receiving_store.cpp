// Writing and reading the bench's tables.
#include "app/store/receiving_store.hpp"

#include "app/store/lab_store.hpp"
#include "app/store/receiving_tables.hpp"

namespace qb {

namespace {

constexpr int patience_ms = 5000; // how long another command may hold the file

// All tables, in the one order in which they are made and emptied.
template <typename F>
bool every_table(F&& f) {
  return f(received::arrivals{}) && f(received::tubes{}) && f(received::scans{}) &&
         f(received::papers{}) && f(received::readings{}) && f(received::choices{}) &&
         f(received::overrides{}) && f(received::conclusions{});
}

constexpr const char* make_forgotten =
    "CREATE TABLE IF NOT EXISTS bench_forgotten(protocol TEXT PRIMARY KEY, tests INTEGER NOT NULL,"
    " due INTEGER NOT NULL, taken INTEGER NOT NULL, on_time INTEGER NOT NULL,"
    " early INTEGER NOT NULL, late INTEGER NOT NULL, missed INTEGER NOT NULL) STRICT;";

bool table_is_there(sqlite3* db, const char* name) {
  statement ask(db, "SELECT 1 FROM sqlite_schema WHERE type='table' AND name=?1");
  ask.bind(1, std::string(name));
  return ask.step() == SQLITE_ROW;
}

bool make_all(sqlite3* db) {
  return every_table([&](auto table) {
           return run_sql(db, received::make_sql<decltype(table)>().c_str()) &&
                  received::grow<decltype(table)>(db);
         }) &&
         run_sql(db, make_forgotten);
}

// Deletes the rows of a kit by that SQL, which has it as ?1; adds how many went.
bool remove(sqlite3* db, const std::string& sql, const std::string& kit, std::int64_t& gone) {
  statement away(db, sql.c_str());
  away.bind(1, kit);
  if (away.step() != SQLITE_DONE) return false;
  gone += sqlite3_changes(db);
  return true;
}

// By test: an earlier version of a log may bear another kit number, if that was put right.
bool remove_logs(sqlite3* db, const std::string& kit, std::int64_t& gone) {
  const std::string of_the_kit =
      " WHERE test_id IN (SELECT test_id FROM log WHERE kit_number = ?1)";
  if (table_is_there(db, "signature") &&
      !remove(db, "DELETE FROM signature" + of_the_kit, kit, gone))
    return false;
  if (table_is_there(db, "code") &&
      !remove(db, "DELETE FROM code" + of_the_kit + " OR kit_number = ?1", kit, gone))
    return false;
  if (table_is_there(db, "log_aside") &&
      !remove(db, "DELETE FROM log_aside" + of_the_kit + " OR kit_number = ?1", kit, gone))
    return false;
  return remove(db, "DELETE FROM log" + of_the_kit, kit, gone);
}

bool add_counts(sqlite3* db, const forgotten_row& r) {
  statement put(db, "INSERT INTO bench_forgotten VALUES(?1,?2,?3,?4,?5,?6,?7,?8)"
                    " ON CONFLICT(protocol) DO UPDATE SET tests=tests+?2, due=due+?3,"
                    " taken=taken+?4, on_time=on_time+?5, early=early+?6, late=late+?7,"
                    " missed=missed+?8");
  put.bind(1, r.protocol).bind(2, r.tests).bind(3, r.due).bind(4, r.taken).bind(5, r.on_time);
  put.bind(6, r.early).bind(7, r.late).bind(8, r.missed);
  return put.step() == SQLITE_DONE;
}

} // namespace

void receiving_store::closer::operator()(sqlite3* db) const {
  sqlite3_close_v2(db);
}

receiving_store::receiving_store(sqlite3* db, std::string path) : db_(db), path_(std::move(path)) {}
receiving_store::receiving_store(receiving_store&&) noexcept = default;
receiving_store& receiving_store::operator=(receiving_store&&) noexcept = default;
receiving_store::~receiving_store() = default;

refusal receiving_store::disk_refusal(const char* doing) const {
  if (sqlite3_errcode(db_.get()) == SQLITE_BUSY)
    return {refusal_kind::machine, path_, doing, "another command that holds the store",
            "one command that writes at a time"};
  return {refusal_kind::machine, path_, doing, sqlite3_errmsg(db_.get()),
          "a disk that can be read and written, with space left"};
}

result<receiving_store> receiving_store::open(const std::string& path) {
  // That it is a laboratory's store of a version we read is asked where that is known.
  if (const auto store = lab_store::open(path); !store) return tl::unexpected(store.error());
  sqlite3* raw = nullptr;
  const int code = sqlite3_open_v2(path.c_str(), &raw, SQLITE_OPEN_READWRITE, nullptr);
  receiving_store out(raw, path);
  if (code != SQLITE_OK || !run_sql(raw, "PRAGMA synchronous=FULL"))
    return tl::unexpected(out.disk_refusal("opening"));
  sqlite3_busy_timeout(raw, patience_ms);
  return out;
}

// The mode of the journal belongs to the connection, not to the file.
bool receiving_store::begin() {
  return run_sql(db_.get(), "PRAGMA journal_mode=TRUNCATE") &&
         run_sql(db_.get(), "BEGIN IMMEDIATE") && make_all(db_.get());
}

bool receiving_store::has_tables() const {
  return table_is_there(db_.get(), received::arrivals::name);
}

template <typename Insert>
result<std::int64_t> receiving_store::in_one(const Insert& insert) {
  std::int64_t answer = 0;
  const bool good = begin() && insert(db_.get(), answer) && run_sql(db_.get(), "COMMIT");
  if (good) return answer;
  const refusal no = disk_refusal("writing");
  if (sqlite3_get_autocommit(db_.get()) == 0 && !run_sql(db_.get(), "ROLLBACK"))
    return tl::unexpected(disk_refusal("taking a write back"));
  return tl::unexpected(no);
}

namespace {

template <typename Table>
auto one_of(const typename Table::row& row) {
  return [&row](sqlite3* db, std::int64_t& entry) {
    const bool good = received::insert<Table>(db, row);
    entry = sqlite3_last_insert_rowid(db);
    return good;
  };
}

// Inserts them all; answers how many were new.
template <typename Table>
auto all_of(const std::vector<typename Table::row>& rows) {
  return [&rows](sqlite3* db, std::int64_t& fresh) {
    for (const auto& row : rows) {
      if (!received::insert<Table>(db, row)) return false;
      fresh += sqlite3_changes(db);
    }
    return true;
  };
}

} // namespace

result<std::int64_t> receiving_store::put(const arrival_row& row) {
  return in_one(one_of<received::arrivals>(row));
}
result<std::int64_t> receiving_store::put(const scan_row& row) {
  return in_one(one_of<received::scans>(row));
}
result<std::int64_t> receiving_store::put(const paper_row& row) {
  return in_one(one_of<received::papers>(row));
}
result<std::int64_t> receiving_store::put(const choice_row& row) {
  return in_one(one_of<received::choices>(row));
}
result<std::int64_t> receiving_store::put(const override_row& row) {
  return in_one(one_of<received::overrides>(row));
}
result<std::int64_t> receiving_store::put(const conclusion_row& row) {
  return in_one(one_of<received::conclusions>(row));
}

result<std::int64_t> receiving_store::put_box(const arrival_row& box, std::vector<tube_row> tubes) {
  return in_one([&](sqlite3* db, std::int64_t& entry) {
    if (!received::insert<received::arrivals>(db, box)) return false;
    entry = sqlite3_last_insert_rowid(db);
    for (tube_row& tube : tubes) {
      tube.box = entry;
      if (!received::insert<received::tubes>(db, tube)) return false;
    }
    return true;
  });
}

result<added_readings> receiving_store::put(const std::vector<reading_row>& rows) {
  const auto fresh = in_one(all_of<received::readings>(rows));
  if (!fresh) return tl::unexpected(fresh.error());
  return added_readings{*fresh, static_cast<std::int64_t>(rows.size()) - *fresh};
}

result<receiving_rows> receiving_store::find(const std::string& kit) const {
  receiving_rows out;
  if (!has_tables()) return out;
  sqlite3* db = db_.get();
  const bool good = received::select<received::arrivals>(db, kit, out.arrivals) &&
                    received::select<received::tubes>(db, kit, out.tubes) &&
                    (!table_is_there(db, received::scans::name) ||
                     received::select<received::scans>(db, kit, out.scans)) &&
                    received::select<received::papers>(db, kit, out.papers) &&
                    received::select<received::readings>(db, kit, out.readings) &&
                    received::select<received::choices>(db, kit, out.choices) &&
                    received::select<received::overrides>(db, kit, out.overrides) &&
                    received::select<received::conclusions>(db, kit, out.conclusions);
  if (!good) return tl::unexpected(disk_refusal("reading"));
  return out;
}

result<std::int64_t> receiving_store::forget(const std::string& kit,
                                             const std::vector<forgotten_row>& counts) {
  // Freed pages are filled with zeros, so that no name stays readable in the file.
  if (!run_sql(db_.get(), "PRAGMA secure_delete=ON"))
    return tl::unexpected(disk_refusal("opening"));
  return in_one([&](sqlite3* db, std::int64_t& gone) {
    for (const forgotten_row& row : counts)
      if (!add_counts(db, row)) return false;
    return every_table([&](auto table) {
             return remove(db, fmt::format("DELETE FROM {} WHERE kit = ?1", table.name), kit, gone);
           }) &&
           remove_logs(db, kit, gone);
  });
}

result<std::vector<forgotten_row>> receiving_store::forgotten() const {
  std::vector<forgotten_row> out;
  if (!table_is_there(db_.get(), "bench_forgotten")) return out;
  statement ask(db_.get(), "SELECT protocol, tests, due, taken, on_time, early, late, missed"
                           " FROM bench_forgotten ORDER BY protocol");
  int code = ask.step();
  for (; code == SQLITE_ROW; code = ask.step())
    out.push_back({ask.text(0), ask.integer(1), ask.integer(2), ask.integer(3), ask.integer(4),
                   ask.integer(5), ask.integer(6), ask.integer(7)});
  if (code != SQLITE_DONE) return tl::unexpected(disk_refusal("reading"));
  return out;
}

} // namespace qb
