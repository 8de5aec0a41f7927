// Writing and reading the laboratory's own tables.
#include "app/store/laboratory_store.hpp"

#include "app/store/lab_store.hpp"
#include "app/store/statement.hpp"

#include <fmt/core.h>

namespace qb::inline store {

namespace {

constexpr const char* make_all =
    "CREATE TABLE IF NOT EXISTS own_setting(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
    " name TEXT NOT NULL, value TEXT NOT NULL, \"by\" TEXT NOT NULL, at TEXT NOT NULL) STRICT;"
    "CREATE TABLE IF NOT EXISTS own_person(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
    " name TEXT NOT NULL, code TEXT NOT NULL, roles TEXT NOT NULL, key TEXT NOT NULL,"
    " key_file TEXT NOT NULL, \"by\" TEXT NOT NULL, at TEXT NOT NULL) STRICT;"
    "CREATE TABLE IF NOT EXISTS own_issued(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
    " kit TEXT NOT NULL UNIQUE, code TEXT NOT NULL, protocol TEXT NOT NULL, lot TEXT NOT NULL,"
    " expires TEXT NOT NULL, \"by\" TEXT NOT NULL, at TEXT NOT NULL) STRICT;"
    "CREATE TABLE IF NOT EXISTS own_requested(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
    " kit TEXT NOT NULL, name TEXT NOT NULL, birth_date TEXT NOT NULL,"
    " hospital_number TEXT NOT NULL, order_number TEXT NOT NULL, source TEXT NOT NULL,"
    " \"by\" TEXT NOT NULL, at TEXT NOT NULL) STRICT;"
    "CREATE INDEX IF NOT EXISTS own_requested_of_kit ON own_requested(kit);"
    "CREATE TABLE IF NOT EXISTS own_handed(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
    " kit TEXT NOT NULL, test TEXT NOT NULL, what TEXT NOT NULL, of TEXT NOT NULL,"
    " \"by\" TEXT NOT NULL, at TEXT NOT NULL) STRICT;";

// Which fields of a row are which columns after `entry`, in their order: one list a table.
template <typename F, typename... Fields>
void in_this_order(F& f, Fields&... each) {
  (f(each), ...);
}
template <typename Row, typename F>
void each_of(Row& r, F&& f, const setting_row* /*kind*/) {
  in_this_order(f, r.name, r.value, r.by, r.at);
}
template <typename Row, typename F>
void each_of(Row& r, F&& f, const person_row* /*kind*/) {
  in_this_order(f, r.name, r.code, r.roles, r.key, r.key_file, r.by, r.at);
}
template <typename Row, typename F>
void each_of(Row& r, F&& f, const issued_kit_row* /*kind*/) {
  in_this_order(f, r.kit, r.code, r.protocol, r.lot, r.expires, r.by, r.at);
}
template <typename Row, typename F>
void each_of(Row& r, F&& f, const requested_row* /*kind*/) {
  in_this_order(f, r.kit, r.name, r.birth_date, r.hospital_number, r.order_number, r.source, r.by,
                r.at);
}
template <typename Row, typename F>
void each_of(Row& r, F&& f, const handed_row* /*kind*/) {
  in_this_order(f, r.kit, r.test, r.what, r.of, r.by, r.at);
}

template <typename Row>
bool insert(store::database& db, const char* table, const Row& row) {
  const Row* kind = nullptr;
  std::string places;
  int count = 0;
  each_of(
      row, [&](const std::string&) { places += fmt::format(",?{}", ++count); }, kind);
  statement put = db.prepare(fmt::format("INSERT INTO {} VALUES(NULL{})", table, places));
  int at = 0;
  each_of(
      row, [&](const std::string& text) { put.bind(++at, text); }, kind);
  return put.step() == SQLITE_DONE;
}

template <typename Row>
bool insert_all(store::database& db, const char* table, const std::vector<Row>& rows) {
  for (const Row& row : rows)
    if (!insert(db, table, row)) return false;
  return true;
}

// The rows whose `column` is `is`, or all where that is empty; none of a table that is not there.
template <typename Row>
result<std::vector<Row>> select(const store::database& db, const char* table, const char* column,
                                const std::string& is) {
  std::vector<Row> out;
  const auto there = db.has_table(table);
  if (!there) return tl::unexpected(there.error());
  if (!*there) return out;
  statement ask =
      db.prepare(fmt::format("SELECT * FROM {} {} ORDER BY entry", table,
                             is.empty() ? std::string() : fmt::format("WHERE {} = ?1", column)));
  if (!is.empty()) ask.bind(1, is);
  const bool good = ask.each_row([&] {
    Row& row = out.emplace_back();
    int at = 0;
    const Row* kind = nullptr;
    each_of(
        row, [&](std::string& text) { text = ask.text(++at); }, kind);
  });
  if (!good) return tl::unexpected(db.failed("reading"));
  return out;
}

} // namespace

result<laboratory_store> laboratory_store::open(const std::string& path) {
  // That it is a laboratory's store of a version we read is asked where that is known.
  if (const auto logs = lab_store::open(path); !logs) return tl::unexpected(logs.error());
  auto db = store::database::open(path, lab_file_rules);
  if (!db) return tl::unexpected(db.error());
  return laboratory_store(std::move(*db));
}

template <typename Insert>
result<void> laboratory_store::in_one(const Insert& insert_rows) {
  store::transaction write(db_);
  if (!write.begun()) return tl::unexpected(write.failed("writing"));
  if (!db_.run(make_all) || !insert_rows() || !write.commit())
    return tl::unexpected(write.failed("writing"));
  return {};
}

result<void> laboratory_store::put(const laboratory_rows& rows) {
  return in_one([&] {
    return insert_all(db_, "own_setting", rows.settings) &&
           insert_all(db_, "own_person", rows.people);
  });
}

result<void> laboratory_store::put(const std::vector<requested_row>& rows) {
  return in_one([&] { return insert_all(db_, "own_requested", rows); });
}

result<void> laboratory_store::put(const std::vector<handed_row>& rows) {
  return in_one([&] { return insert_all(db_, "own_handed", rows); });
}

result<void> laboratory_store::put(const std::vector<issued_kit_row>& rows) {
  std::string twice;
  const auto done = in_one([&] {
    for (const issued_kit_row& row : rows) {
      statement ask = db_.prepare("SELECT 1 FROM own_issued WHERE kit = ?1");
      ask.bind(1, row.kit);
      if (ask.step() == SQLITE_ROW) twice = row.kit;
      if (!twice.empty() || !insert(db_, "own_issued", row)) return false;
    }
    return true;
  });
  if (twice.empty()) return done;
  return tl::unexpected(refusal{refusal_kind::out_of_range, "", "--serial",
                                "kit " + twice + ", which was issued before",
                                "serials that no kit has yet"});
}

result<laboratory_rows> laboratory_store::settings() const {
  auto settings = select<setting_row>(db_, "own_setting", "name", "");
  if (!settings) return tl::unexpected(settings.error());
  auto people = select<person_row>(db_, "own_person", "name", "");
  if (!people) return tl::unexpected(people.error());
  return laboratory_rows{std::move(*settings), std::move(*people)};
}

result<std::vector<issued_kit_row>> laboratory_store::issued(const std::string& kit) const {
  return select<issued_kit_row>(db_, "own_issued", "kit", kit);
}

result<std::vector<requested_row>> laboratory_store::requests(const std::string& kit) const {
  return select<requested_row>(db_, "own_requested", "kit", kit);
}

result<std::vector<handed_row>> laboratory_store::handed(const std::string& what) const {
  return select<handed_row>(db_, "own_handed", "what", what);
}

} // namespace qb::inline store
