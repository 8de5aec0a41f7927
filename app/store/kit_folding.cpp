// Which spellings there are, and the SQL that brings their rows together.
#include "app/store/kit_folding.hpp"

#include "app/store/receiving_tables.hpp"
#include "app/store/statement.hpp"
#include "core/protocol/kit_number.hpp"

#include <array>
#include <fmt/core.h>
#include <set>

namespace qb::inline store {

namespace {

// A table, and its column that holds a kit number.
struct kit_column {
  const char* table;
  const char* column;
};
constexpr std::array<kit_column, 18> kit_columns{{{"log", "kit_number"},
                                                  {"code", "kit_number"},
                                                  {"log_aside", "kit_number"},
                                                  {"bench_arrival", "kit"},
                                                  {"bench_tube", "kit"},
                                                  {"bench_scan", "kit"},
                                                  {"bench_paper", "kit"},
                                                  {"bench_reading", "kit"},
                                                  {"bench_choice", "kit"},
                                                  {"bench_override", "kit"},
                                                  {"bench_conclusion", "kit"},
                                                  {"bench_issued", "kit"},
                                                  {"bench_signature", "kit"},
                                                  {"bench_ruling", "kit"},
                                                  {"bench_ruling", "to_kit"},
                                                  {"own_issued", "kit"},
                                                  {"own_requested", "kit"},
                                                  {"own_handed", "kit"}}};

// The columns that this store has.
result<std::vector<kit_column>> columns_here(const database& db) {
  std::vector<kit_column> out;
  for (const kit_column& one : kit_columns) {
    const auto there = db.has_table(one.table);
    if (!there) return tl::unexpected(there.error());
    if (*there) out.push_back(one);
  }
  return out;
}

// Every number that is kept in another form than its own. Of a damaged table those that can be
// read: whoever asks for its rows tells of the damage.
std::set<std::string> spellings(const database& db, const std::vector<kit_column>& here) {
  std::set<std::string> out;
  for (const kit_column& one : here) {
    statement ask = db.prepare(fmt::format("SELECT DISTINCT {} FROM {}", one.column, one.table));
    (void)ask.each_row([&] {
      const std::string kit = ask.text(0);
      if (kit_key(kit) != kit) out.insert(kit);
    });
  }
  return out;
}

// One statement about one spelling; `rows` counts what it changed.
bool run_on(const database& db, const std::string& sql, const std::string& from,
            const std::string& to, std::int64_t& rows) {
  statement change = db.prepare(sql);
  change.bind(1, from).bind(2, to);
  if (change.step() != SQLITE_DONE) return false;
  rows += db.changes();
  return true;
}

// The same reading under both spellings: what names the second names the first from now on. One
// that was entered for another test stays where it is, and is found by its test.
bool join_readings(const database& db, const std::string& from, const std::string& to,
                   std::int64_t& rows) {
  const char* same_test = received::has_column<received::readings>(db, "test")
                              ? " AND (b.test = a.test OR b.test = '' OR a.test = '')"
                              : "";
  const std::string twin = fmt::format(
      "(SELECT a.entry FROM bench_reading a WHERE a.kit = ?2 AND a.sample = b.sample AND"
      " a.h2 = b.h2 AND a.ch4 = b.ch4 AND a.co2 = b.co2 AND a.measured_at = b.measured_at{})",
      same_test);
  const auto names = [&](const char* table, const char* column, const char* where) {
    const auto there = db.has_table(table);
    if (!there || !*there) return there.has_value();
    return run_on(db,
                  fmt::format("UPDATE {0} SET {1} = (SELECT {2} FROM bench_reading b"
                              " WHERE b.entry = {0}.{1}) WHERE {3} {1} IN"
                              " (SELECT b.entry FROM bench_reading b WHERE b.kit = ?1 AND {2}"
                              " IS NOT NULL)",
                              table, column, twin, where),
                  from, to, rows);
  };
  return names("bench_choice", "reading", "") &&
         names("bench_ruling", "about", "what = 'reading' AND") &&
         run_on(db,
                "DELETE FROM bench_reading WHERE entry IN (SELECT b.entry FROM bench_reading b"
                " WHERE b.kit = ?1 AND " +
                    twin + " IS NOT NULL)",
                from, to, rows);
}

bool fold(const database& db, const std::vector<kit_column>& here, const std::string& from,
          std::int64_t& rows) {
  const std::string to = kit_key(from);
  for (const kit_column& one : here) {
    const std::string sql =
        fmt::format("UPDATE OR IGNORE {0} SET {1} = ?2 WHERE {1} = ?1", one.table, one.column);
    if (!run_on(db, sql, from, to, rows)) return false;
    if (one.table == std::string("bench_reading") && !join_readings(db, from, to, rows))
      return false;
  }
  return true;
}

// All of them; answers how many rows changed. Without `keep` it is only tried.
result<std::int64_t> fold_all(database& db, const std::vector<kit_column>& here,
                              const std::set<std::string>& before, bool keep) {
  transaction write(db);
  if (!write.begun()) return tl::unexpected(write.failed("opening"));
  std::int64_t rows = 0;
  for (const std::string& from : before)
    if (!fold(db, here, from, rows)) return tl::unexpected(write.failed("opening"));
  if (!(keep ? write.commit() : write.take_back())) return tl::unexpected(write.failed("opening"));
  return rows;
}

} // namespace

result<void> fold_kit_numbers(database& db) {
  const auto here = columns_here(db);
  if (!here) return tl::unexpected(here.error());
  const std::set<std::string> before = spellings(db, *here);
  if (before.empty()) return {};
  // A reading that must stay where it is would else be copied for again and again.
  const auto tried = fold_all(db, *here, before, false);
  if (!tried) return tl::unexpected(tried.error());
  if (*tried == 0) return {};
  if (const auto copied = db.keep_copy(); !copied) return copied;
  const auto done = fold_all(db, *here, before, true);
  if (!done) return tl::unexpected(done.error());
  return {};
}

} // namespace qb::inline store
