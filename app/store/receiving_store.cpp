// Writing and reading receiving's tables.
#include "app/store/receiving_store.hpp"

#include "app/store/lab_store.hpp"
#include "app/store/receiving_tables.hpp"

namespace qb {

namespace {

// How long another command may hold the file before this one gives up.
constexpr std::chrono::seconds patience{5};

constexpr store::file_rules rules{store::access::write,
                                  patience,
                                  "PRAGMA synchronous=FULL",
                                  "a laboratory's store",
                                  "another command that holds the store",
                                  "one command that writes at a time",
                                  "a disk that can be read and written, with space left"};

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

bool make_all(store::database& db) {
  return every_table([&](auto table) {
           return db.run(received::make_sql<decltype(table)>()) &&
                  received::grow<decltype(table)>(db);
         }) &&
         db.run(make_forgotten);
}

// Deletes the rows of a kit by that SQL, which has it as ?1; adds how many went.
bool remove(store::database& db, const std::string& sql, const std::string& kit,
            std::int64_t& gone) {
  statement away = db.prepare(sql);
  away.bind(1, kit);
  if (away.step() != SQLITE_DONE) return false;
  gone += db.changes();
  return true;
}

// By test: an earlier version of a log may bear another kit number, if that was put right. Those
// that hang on logs go first, where they are.
bool remove_logs(store::database& db, const std::string& kit, std::int64_t& gone) {
  const std::string of_the_kit =
      " WHERE test_id IN (SELECT test_id FROM log WHERE kit_number = ?1)";
  const auto from = [&](const char* table, const std::string& where) {
    const auto there = db.has_table(table);
    return there &&
           (!*there || remove(db, fmt::format("DELETE FROM {}{}", table, where), kit, gone));
  };
  return from("signature", of_the_kit) && from("log_signature", of_the_kit) &&
         from("log_choice", of_the_kit) && from("code", of_the_kit + " OR kit_number = ?1") &&
         from("log_aside", of_the_kit + " OR kit_number = ?1") && from("log", of_the_kit);
}

bool add_counts(store::database& db, const forgotten_row& r) {
  statement put = db.prepare("INSERT INTO bench_forgotten VALUES(?1,?2,?3,?4,?5,?6,?7,?8)"
                             " ON CONFLICT(protocol) DO UPDATE SET tests=tests+?2, due=due+?3,"
                             " taken=taken+?4, on_time=on_time+?5, early=early+?6, late=late+?7,"
                             " missed=missed+?8");
  put.bind(1, r.protocol).bind(2, r.tests).bind(3, r.due).bind(4, r.taken).bind(5, r.on_time);
  put.bind(6, r.early).bind(7, r.late).bind(8, r.missed);
  return put.step() == SQLITE_DONE;
}

} // namespace

result<receiving_store> receiving_store::open(const std::string& path) {
  // That it is a laboratory's store of a version we read is asked where that is known.
  if (const auto logs = lab_store::open(path); !logs) return tl::unexpected(logs.error());
  auto db = store::database::open(path, rules);
  if (!db) return tl::unexpected(db.error());
  return receiving_store(std::move(*db));
}

template <typename Insert>
result<std::int64_t> receiving_store::in_one(const Insert& insert) {
  std::int64_t answer = 0;
  store::transaction write(db_);
  if (write.begun() && make_all(db_) && insert(db_, answer) && write.commit()) return answer;
  return tl::unexpected(write.failed("writing"));
}

namespace {

template <typename Table>
auto one_of(const typename Table::row& row) {
  return [&row](store::database& db, std::int64_t& entry) {
    const bool good = received::insert<Table>(db, row);
    entry = db.last_entry();
    return good;
  };
}

// Inserts them all; answers how many were new.
template <typename Table>
auto all_of(const std::vector<typename Table::row>& rows) {
  return [&rows](store::database& db, std::int64_t& fresh) {
    for (const auto& row : rows) {
      if (!received::insert<Table>(db, row)) return false;
      fresh += db.changes();
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
  return in_one([&](store::database& db, std::int64_t& entry) {
    if (!received::insert<received::arrivals>(db, box)) return false;
    entry = db.last_entry();
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
  const auto made = db_.has_table(received::arrivals::name);
  if (!made) return tl::unexpected(made.error());
  if (!*made) return out;
  const auto scanned = db_.has_table(received::scans::name);
  if (!scanned) return tl::unexpected(scanned.error());
  const bool good = received::select<received::arrivals>(db_, kit, out.arrivals) &&
                    received::select<received::tubes>(db_, kit, out.tubes) &&
                    (!*scanned || received::select<received::scans>(db_, kit, out.scans)) &&
                    received::select<received::papers>(db_, kit, out.papers) &&
                    received::select<received::readings>(db_, kit, out.readings) &&
                    received::select<received::choices>(db_, kit, out.choices) &&
                    received::select<received::overrides>(db_, kit, out.overrides) &&
                    received::select<received::conclusions>(db_, kit, out.conclusions);
  if (!good) return tl::unexpected(db_.failed("reading"));
  return out;
}

result<std::int64_t> receiving_store::forget(const std::string& kit,
                                             const std::vector<forgotten_row>& counts) {
  // Freed pages are filled with zeros, so that no name stays readable in the file.
  if (!db_.run("PRAGMA secure_delete=ON")) return tl::unexpected(db_.failed("opening"));
  return in_one([&](store::database& db, std::int64_t& gone) {
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
  const auto there = db_.has_table("bench_forgotten");
  if (!there) return tl::unexpected(there.error());
  if (!*there) return out;
  statement ask = db_.prepare("SELECT protocol, tests, due, taken, on_time, early, late, missed"
                              " FROM bench_forgotten ORDER BY protocol");
  const bool read = ask.each_row([&] {
    out.push_back({ask.text(0), ask.integer(1), ask.integer(2), ask.integer(3), ask.integer(4),
                   ask.integer(5), ask.integer(6), ask.integer(7)});
  });
  if (!read) return tl::unexpected(db_.failed("reading"));
  return out;
}

} // namespace qb
