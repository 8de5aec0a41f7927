// Which field of a row is which column: one list a table, from which it is made, written and read.
// So that the three cannot drift apart.
#pragma once

#include "app/store/database.hpp"
#include "app/store/receiving_rows.hpp"
#include "app/store/statement.hpp"

#include <array>
#include <fmt/format.h>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace qb::inline store::received {

// Calls `f` with each of them, from the first to the last.
template <typename F, typename... Fields>
void in_order(F& f, Fields&... each) {
  (f(each), ...);
}

// Nothing was added.
using no_columns = std::array<const char*, 0>;

// Each table: its name, its columns as SQL first made them after `entry`, those that later versions
// added at its end (texts all), and its row's fields in the same order. `each` takes rows that are
// const or not. A table that an earlier version made gets the added columns with the next write;
// until then what is read of them is empty.
struct arrivals {
  using row = arrival_row;
  static constexpr const char* name = "bench_arrival";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, at TEXT NOT NULL, \"by\" TEXT NOT NULL, identifiers TEXT NOT NULL,"
      " protocol TEXT NOT NULL, tested TEXT NOT NULL, posted TEXT NOT NULL,"
      " completed TEXT NOT NULL, stopped TEXT NOT NULL";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.at, r.by, r.identifiers, r.protocol, r.tested, r.posted, r.completed,
             r.stopped, r.entered, r.test, r.person, r.lot, r.expires, r.stored);
  }
  static constexpr std::array added{"entered", "test", "person", "lot", "expires", "stored"};
};

// Of boxes' tubes.
struct tubes {
  using row = tube_row;
  static constexpr const char* name = "bench_tube";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, box INTEGER NOT NULL, sample INTEGER NOT NULL, present INTEGER NOT NULL,"
      " lid TEXT NOT NULL, label TEXT NOT NULL, maker_code TEXT NOT NULL";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.box, r.sample, r.present, r.lid, r.label, r.maker_code, r.test);
  }
  static constexpr std::array added{"test"};
};

// Of tubes' codes as they were scanned. Made by a later version than the tables above.
struct scans {
  using row = scan_row;
  static constexpr const char* name = "bench_scan";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, boxes INTEGER NOT NULL, code TEXT NOT NULL, \"by\" TEXT NOT NULL,"
      " at TEXT NOT NULL";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.boxes, r.code, r.by, r.at, r.test);
  }
  static constexpr std::array added{"test"};
};

// Of paper sheets.
struct papers {
  using row = paper_row;
  static constexpr const char* name = "bench_paper";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, protocol TEXT NOT NULL, day TEXT NOT NULL, times TEXT NOT NULL,"
      " past_midnight INTEGER NOT NULL, drink_start TEXT NOT NULL, drink_end TEXT NOT NULL,"
      " written TEXT NOT NULL,"
      " \"by\" TEXT NOT NULL, at TEXT NOT NULL";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.protocol, r.day, r.times, r.past_midnight, r.drink_start, r.drink_end,
             r.written, r.by, r.at, r.scores, r.test, r.person);
  }
  static constexpr std::array added{"scores", "test", "person"};
};

// Of readings; the same one of the same tube is there once.
struct readings {
  using row = reading_row;
  static constexpr const char* name = "bench_reading";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, sample INTEGER NOT NULL, h2 TEXT NOT NULL, ch4 TEXT NOT NULL,"
      " co2 TEXT NOT NULL, measured_at TEXT NOT NULL, raw TEXT NOT NULL, at TEXT NOT NULL,"
      " file TEXT NOT NULL, UNIQUE(kit, sample, h2, ch4, co2, measured_at)";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.sample, r.h2, r.ch4, r.co2, r.measured_at, r.raw, r.at, r.file, r.mark,
             r.test, r.run, r.analyser, r.calibration, r.control, r.taken_by);
  }
  static constexpr std::array added{"mark",        "test",    "run",     "analyser",
                                    "calibration", "control", "taken_by"};
};

// Of choices between readings.
struct choices {
  using row = choice_row;
  static constexpr const char* name = "bench_choice";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, sample INTEGER NOT NULL, reading INTEGER NOT NULL, \"by\" TEXT NOT NULL,"
      " reason TEXT NOT NULL, at TEXT NOT NULL";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.sample, r.reading, r.by, r.reason, r.at, r.test);
  }
  static constexpr std::array added{"test"};
};

// Of findings set aside.
struct overrides {
  using row = override_row;
  static constexpr const char* name = "bench_override";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, rule TEXT NOT NULL, sample INTEGER NOT NULL, \"by\" TEXT NOT NULL,"
      " reason TEXT NOT NULL, at TEXT NOT NULL, withdrawn INTEGER NOT NULL";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.rule, r.sample, r.by, r.reason, r.at, r.withdrawn, r.test);
  }
  static constexpr std::array added{"test"};
};

// Of conclusions.
struct conclusions {
  using row = conclusion_row;
  static constexpr const char* name = "bench_conclusion";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, words TEXT NOT NULL, \"by\" TEXT NOT NULL, at TEXT NOT NULL";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.words, r.by, r.at, r.seen, r.test, r.kind, r.number, r.reason, r.lack);
  }
  static constexpr std::array added{"seen", "test", "kind", "number", "reason", "lack"};
};

// Of named persons' words on rows. Made by a later version than the tables above, like the next.
struct rulings {
  using row = ruling_row;
  static constexpr const char* name = "bench_ruling";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, what TEXT NOT NULL, about INTEGER NOT NULL, tube INTEGER NOT NULL,"
      " says TEXT NOT NULL, test TEXT NOT NULL, to_kit TEXT NOT NULL, to_tube INTEGER NOT NULL,"
      " known TEXT NOT NULL, \"by\" TEXT NOT NULL, reason TEXT NOT NULL, at TEXT NOT NULL";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.what, r.about, r.tube, r.says, r.test, r.to_kit, r.to_tube, r.known, r.by,
             r.reason, r.at);
  }
  static constexpr no_columns added{};
};

// Of what was issued.
struct issued {
  using row = issued_row;
  static constexpr const char* name = "bench_issued";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, test TEXT NOT NULL, number INTEGER NOT NULL, format TEXT NOT NULL,"
      " body BLOB NOT NULL, UNIQUE(test, number, format)";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.test, r.number, r.format, r.body);
  }
  static constexpr no_columns added{};
};

// Of readers' signatures; the last of a conclusion counts.
struct signatures {
  using row = conclusion_signature_row;
  static constexpr const char* name = "bench_signature";
  static constexpr const char* columns =
      "kit TEXT NOT NULL, test TEXT NOT NULL, number INTEGER NOT NULL, body TEXT NOT NULL,"
      " signature TEXT NOT NULL, key TEXT NOT NULL";
  template <typename Row, typename F>
  static void each(Row& r, F&& f) {
    in_order(f, r.kit, r.test, r.number, r.body, r.signature, r.key);
  }
  static constexpr no_columns added{};
};

// Writes a field, or reads it, at the next position.
struct binder {
  statement& to;
  int at{0};
  void operator()(const std::string& text) { to.bind(++at, text); }
  void operator()(std::int64_t n) { to.bind(++at, n); }
  void operator()(const stored_bytes& b) { to.bind_bytes(++at, b.value); }
  void operator()(bool yes) { to.bind(++at, std::int64_t{yes}); }
};
struct taker {
  const statement& from;
  int at{0}; // column 0 is the entry
  void operator()(std::string& text) {
    // An earlier version's table ends before the columns that were added.
    if (++at < from.columns()) text = from.text(at);
  }
  void operator()(std::int64_t& n) { n = from.integer(++at); }
  void operator()(stored_bytes& b) { b.value = from.bytes(++at); }
  void operator()(bool& yes) { yes = from.integer(++at) != 0; }
};

// SQL that makes the table and its index where they are not.
template <typename Table>
std::string make_sql() {
  return fmt::format("CREATE TABLE IF NOT EXISTS {0}(entry INTEGER PRIMARY KEY AUTOINCREMENT, {1})"
                     " STRICT; CREATE INDEX IF NOT EXISTS {0}_of_kit ON {0}(kit);",
                     Table::name, Table::columns);
}

// Whether the table has that column; false too where there is no such table.
template <typename Table>
bool has_column(const store::database& db, const char* column) {
  statement ask = db.prepare("SELECT 1 FROM pragma_table_info(?1) WHERE name = ?2");
  ask.bind(1, std::string(Table::name)).bind(2, std::string(column));
  return ask.step() == SQLITE_ROW;
}

// Whether an earlier version made it, and it lacks a column.
template <typename Table>
bool lacks_columns(const store::database& db) {
  for (const char* column : Table::added)
    if (has_column<Table>(db, "kit") && !has_column<Table>(db, column)) return true;
  return false;
}

// Adds the columns that an earlier version's table lacks; false where that fails.
template <typename Table>
bool grow(store::database& db) {
  for (const char* column : Table::added) {
    const std::string sql =
        fmt::format("ALTER TABLE {} ADD COLUMN {} TEXT NOT NULL DEFAULT ''", Table::name, column);
    if (!has_column<Table>(db, column) && !db.run(sql)) return false;
  }
  return true;
}

// Inserts a row, or passes over one that the table has already; false where that fails.
template <typename Table>
bool insert(store::database& db, const typename Table::row& row) {
  std::string places;
  int count = 0;
  Table::each(row, [&](const auto&) { places += fmt::format(",?{}", ++count); });
  statement put =
      db.prepare(fmt::format("INSERT OR IGNORE INTO {} VALUES(NULL{})", Table::name, places));
  Table::each(row, binder{put});
  return put.step() == SQLITE_DONE;
}

// Which rows are meant: those that `where` takes, a condition on "WHERE" with ?1 and on bound to
// `texts`; all where it is empty.
struct chosen {
  std::string where;
  std::vector<std::string> texts;
};

// Those rows by rising entry, none where there is no such table; false where that fails.
template <typename Table>
bool select(const store::database& db, const chosen& rows, std::vector<typename Table::row>& out) {
  const auto there = db.has_table(Table::name);
  if (!there || !*there) return there.has_value();
  statement ask = db.prepare(fmt::format("SELECT * FROM {} {}{} ORDER BY entry", Table::name,
                                         rows.where.empty() ? "" : "WHERE ", rows.where));
  int at = 0;
  for (const std::string& text : rows.texts)
    ask.bind(++at, text);
  return ask.each_row([&] {
    typename Table::row row;
    row.entry = ask.integer(0);
    Table::each(row, taker{ask});
    out.push_back(std::move(row));
  });
}

// All rows by rising entry, read one by one where they cannot be read together: a damaged page
// costs its own. `lost` gets the kit numbers under which rows are that cannot be read, as the index
// of kits has them; false where that cannot be read either.
template <typename Table>
bool select_readable(const store::database& db, std::vector<typename Table::row>& out,
                     std::set<std::string>& lost) {
  if (select<Table>(db, {}, out)) return true;
  out.clear();
  std::map<std::int64_t, std::string> kit_of;
  statement all =
      db.prepare(fmt::format("SELECT entry, kit FROM {0} INDEXED BY {0}_of_kit", Table::name));
  if (!all.each_row([&] { kit_of[all.integer(0)] = all.text(1); })) return false;
  for (const auto& [entry, kit] : kit_of) {
    const std::size_t before = out.size();
    const chosen this_one{"entry = CAST(?1 AS INTEGER)", {fmt::format("{}", entry)}};
    if (select<Table>(db, this_one, out) && out.size() == before + 1) continue;
    out.resize(before);
    lost.insert(kit);
  }
  return true;
}

} // namespace qb::inline store::received
