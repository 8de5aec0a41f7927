// Writing and reading receiving's tables.
#include "app/store/receiving_store.hpp"

#include "app/store/forget_rows.hpp"
#include "app/store/lab_store.hpp"
#include "app/store/receiving_tables.hpp"

namespace qb::inline store {

namespace {

// All tables, in the one order in which they are made and emptied.
template <typename F>
bool every_table(F&& f) {
  return f(received::arrivals{}) && f(received::tubes{}) && f(received::scans{}) &&
         f(received::papers{}) && f(received::readings{}) && f(received::choices{}) &&
         f(received::overrides{}) && f(received::conclusions{}) && f(received::rulings{}) &&
         f(received::issued{}) && f(received::signatures{});
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
  auto db = store::database::open(path, lab_file_rules);
  if (!db) return tl::unexpected(db.error());
  return receiving_store(std::move(*db));
}

result<std::string> receiving_store::state_of(const std::string& kit) const {
  std::string out;
  const auto add = [&](const char* table, const std::string& ask) {
    const auto there = db_.has_table(table);
    if (!there) return false;
    if (!*there) {
      out += "0 ";
      return true;
    }
    statement last = db_.prepare(ask);
    last.bind(1, kit);
    return last.each_row([&] { out += fmt::format("{} ", last.integer(0)); });
  };
  bool good = every_table([&](auto table) {
    return add(table.name,
               fmt::format("SELECT coalesce(max(entry), 0) FROM {} WHERE kit = ?1", table.name));
  });
  good = good && add(received::rulings::name,
                     "SELECT coalesce(max(entry), 0) FROM bench_ruling WHERE to_kit = ?1");
  for (const char* table : {"log", "code"})
    good = good && add(table, fmt::format("SELECT coalesce(sum(events + 1), 0) FROM {} WHERE"
                                          " kit_number = ?1",
                                          table));
  if (!good) return tl::unexpected(db_.failed("reading"));
  return out;
}

std::optional<refusal> receiving_store::no_to_seen(const std::vector<seen_kit>& seen) const {
  for (const seen_kit& one : seen) {
    if (one.kit.empty()) continue;
    const auto now = state_of(one.kit);
    if (!now) return now.error();
    if (*now != one.state)
      return refusal{refusal_kind::not_now, "", more_came,
                     "more of kit " + one.kit + " than when it was looked at",
                     "the same said again, if it holds still"};
  }
  return std::nullopt;
}

// Of the file as an earlier version left it, before its tables get columns.
result<void> receiving_store::keep_copy() const {
  bool lacks = false;
  (void)every_table([&](auto table) {
    lacks = lacks || received::lacks_columns<decltype(table)>(db_);
    return true;
  });
  if (!lacks) return {};
  return db_.keep_copy();
}

template <typename Insert>
result<std::int64_t> receiving_store::in_one(const std::vector<seen_kit>& seen,
                                             const Insert& insert) {
  if (const auto copied = keep_copy(); !copied) return tl::unexpected(copied.error());
  std::int64_t answer = 0;
  store::transaction write(db_);
  if (!write.begun()) return tl::unexpected(write.failed("writing"));
  if (auto no = no_to_seen(seen)) return tl::unexpected(std::move(*no));
  if (make_all(db_) && insert(db_, answer) && write.commit()) return answer;
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

result<std::int64_t> receiving_store::put(const arrival_row& row, const seen_kit& seen) {
  return in_one({seen}, one_of<received::arrivals>(row));
}
result<std::int64_t> receiving_store::put(const scan_row& row, const seen_kit& seen) {
  return in_one({seen}, one_of<received::scans>(row));
}
result<std::int64_t> receiving_store::put(const paper_row& row, const seen_kit& seen) {
  return in_one({seen}, one_of<received::papers>(row));
}
result<std::int64_t> receiving_store::put(const choice_row& row, const seen_kit& seen) {
  return in_one({seen}, one_of<received::choices>(row));
}
result<std::int64_t> receiving_store::put(const override_row& row, const seen_kit& seen) {
  return in_one({seen}, one_of<received::overrides>(row));
}
result<std::int64_t> receiving_store::put(const conclusion_row& row, const seen_kit& seen) {
  return in_one({seen}, one_of<received::conclusions>(row));
}

result<std::int64_t> receiving_store::put_issued(const conclusion_row& row,
                                                 const with_conclusion& with,
                                                 const seen_kit& seen) {
  return in_one({seen}, [&](store::database& db, std::int64_t& entry) {
    std::int64_t fresh = 0;
    return all_of<received::issued>(with.bytes)(db, fresh) &&
           all_of<received::signatures>(with.signatures)(db, fresh) &&
           one_of<received::conclusions>(row)(db, entry);
  });
}

result<std::int64_t> receiving_store::put_box(const arrival_row& box, std::vector<tube_row> tubes,
                                              const seen_kit& seen) {
  return in_one({seen}, [&](store::database& db, std::int64_t& entry) {
    if (!received::insert<received::arrivals>(db, box)) return false;
    entry = db.last_entry();
    for (tube_row& tube : tubes) {
      tube.box = entry;
      if (!received::insert<received::tubes>(db, tube)) return false;
    }
    return true;
  });
}

result<added_readings> receiving_store::put(const std::vector<reading_row>& rows,
                                            const std::vector<seen_kit>& seen) {
  const auto fresh = in_one(seen, all_of<received::readings>(rows));
  if (!fresh) return tl::unexpected(fresh.error());
  return added_readings{*fresh, static_cast<std::int64_t>(rows.size()) - *fresh};
}

result<std::int64_t> receiving_store::put(const std::vector<ruling_row>& rows,
                                          const std::vector<seen_kit>& seen) {
  return in_one(seen, all_of<received::rulings>(rows));
}

namespace {

// ?1 is the kit, ?2 and on the tests; a table that an earlier version made has no tests.
template <typename Table>
received::chosen rows_under(const store::database& db, const std::string& kit,
                            const std::vector<std::string>& tests) {
  if (kit.empty()) return {};
  received::chosen out{"kit = ?1", {kit}};
  if (tests.empty() || !received::has_column<Table>(db, "test")) return out;
  std::string places;
  for (const std::string& test : tests) {
    out.texts.push_back(test);
    places += fmt::format("{}?{}", places.empty() ? "" : ",", out.texts.size());
  }
  out.where += " OR test IN (" + places + ")";
  return out;
}

} // namespace

result<receiving_rows> receiving_store::all_readable(std::set<std::string>& lost) const {
  receiving_rows out;
  const auto read = [&](auto table, auto& into) {
    return received::select_readable<decltype(table)>(db_, into, lost);
  };
  const bool good =
      read(received::arrivals{}, out.arrivals) && read(received::tubes{}, out.tubes) &&
      read(received::scans{}, out.scans) && read(received::papers{}, out.papers) &&
      read(received::readings{}, out.readings) && read(received::choices{}, out.choices) &&
      read(received::overrides{}, out.overrides) &&
      read(received::conclusions{}, out.conclusions) && read(received::rulings{}, out.rulings);
  if (!good) return tl::unexpected(db_.failed("reading"));
  return out;
}

result<receiving_rows> receiving_store::find(const std::string& kit,
                                             const std::vector<std::string>& tests) const {
  receiving_rows out;
  const auto read = [&](auto table, auto& into, const char* more = "") {
    received::chosen rows = rows_under<decltype(table)>(db_, kit, tests);
    if (!kit.empty()) rows.where += more;
    return received::select<decltype(table)>(db_, rows, into);
  };
  const auto ruled = db_.has_table(received::rulings::name);
  if (!ruled) return tl::unexpected(ruled.error());
  const char* moved_here =
      *ruled ? " OR entry IN (SELECT about FROM bench_ruling WHERE to_kit = ?1)" : "";
  // Of a reading that was moved here or away all words count, wherever they were said.
  const char* of_moved = " OR to_kit = ?1 OR (what = 'reading' AND about IN"
                         " (SELECT about FROM bench_ruling WHERE to_kit = ?1"
                         " UNION SELECT entry FROM bench_reading WHERE kit = ?1))";
  const bool good =
      read(received::arrivals{}, out.arrivals) && read(received::tubes{}, out.tubes) &&
      read(received::scans{}, out.scans) && read(received::papers{}, out.papers) &&
      read(received::readings{}, out.readings, moved_here) &&
      read(received::choices{}, out.choices) && read(received::overrides{}, out.overrides) &&
      read(received::conclusions{}, out.conclusions) &&
      read(received::rulings{}, out.rulings, of_moved);
  if (!good) return tl::unexpected(db_.failed("reading"));
  return out;
}

result<std::vector<std::string>> receiving_store::sheets_of(const std::string& test) const {
  std::vector<paper_row> rows;
  std::vector<std::string> out;
  if (!received::has_column<received::papers>(db_, "test")) return out;
  if (!received::select<received::papers>(db_, {"test = ?1", {test}}, rows))
    return tl::unexpected(db_.failed("reading"));
  for (const paper_row& row : rows)
    out.push_back(row.kit);
  return out;
}

namespace {

// The rows of one conclusion.
received::chosen rows_of_conclusion(const std::string& test, std::int64_t number) {
  return {"test = ?1 AND number = CAST(?2 AS INTEGER)", {test, fmt::format("{}", number)}};
}

} // namespace

result<std::vector<issued_row>> receiving_store::issued_of(const std::string& test,
                                                           std::int64_t number) const {
  std::vector<issued_row> out;
  if (!received::select<received::issued>(db_, rows_of_conclusion(test, number), out))
    return tl::unexpected(db_.failed("reading"));
  return out;
}

result<std::vector<conclusion_signature_row>>
receiving_store::signatures_of(const std::string& test, std::int64_t number) const {
  std::vector<conclusion_signature_row> out;
  if (!received::select<received::signatures>(db_, rows_of_conclusion(test, number), out))
    return tl::unexpected(db_.failed("reading"));
  return out;
}

result<std::int64_t> receiving_store::forget(const forgetting& what,
                                             const std::vector<forgotten_row>& counts) {
  // Freed pages are filled with zeros, so that no name stays readable in the file.
  if (!db_.run("PRAGMA secure_delete=ON")) return tl::unexpected(db_.failed("opening"));
  return in_one({}, [&](store::database& db, std::int64_t& gone) {
    for (const forgotten_row& row : counts)
      if (!add_counts(db, row)) return false;
    return received::remove_test(db, what, gone);
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

} // namespace qb::inline store
