// The SQL of forgetting.
#include "app/store/forget_rows.hpp"

#include "app/store/forgotten_tests.hpp"
#include "app/store/rule_copies.hpp"
#include "app/store/statement.hpp"

#include <fmt/format.h>

namespace qb::inline store::received {

namespace {

// Deletes by a condition with ?1 in it; where there is no such table nothing went.
bool remove(store::database& db, const char* table, const std::string& where,
            const std::string& text, std::int64_t& gone) {
  const auto there = db.has_table(table);
  if (!there || !*there) return there.has_value();
  statement away = db.prepare(fmt::format("DELETE FROM {} WHERE {}", table, where));
  away.bind(1, text);
  if (away.step() != SQLITE_DONE) return false;
  gone += db.changes();
  return true;
}

bool remove_row(store::database& db, const entry_name& row, std::int64_t& gone) {
  const std::string entry = fmt::format("{}", row.entry);
  const bool box = row.table == "bench_arrival";
  return (!box || remove(db, "bench_tube", "box = CAST(?1 AS INTEGER)", entry, gone)) &&
         remove(db, row.table.c_str(), "entry = CAST(?1 AS INTEGER)", entry, gone);
}

} // namespace

bool remove_test(store::database& db, const forgetting& what, std::int64_t& gone) {
  for (const entry_name& row : what.rows)
    if (!remove_row(db, row, gone)) return false;
  if (what.request && !remove(db, "own_requested", "kit = ?1", what.kit, gone)) return false;
  if (what.test.empty()) return remove(db, "own_handed", "test = '' AND kit = ?1", what.kit, gone);
  for (const char* table :
       {"signature", "log_signature", "log_choice", "code", "log_aside", "log_packed", "log"})
    if (!remove(db, table, "test_id = ?1", what.test, gone)) return false;
  for (const char* table : {"bench_issued", "bench_signature", "bench_ruling", "own_handed"})
    if (!remove(db, table, "test = ?1", what.test, gone)) return false;
  if (!store::remove_unheld_rules(db)) return false;
  return store::note_forgotten(db, what.test, what.chance, what.at);
}

} // namespace qb::inline store::received
