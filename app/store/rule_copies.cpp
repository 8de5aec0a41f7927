// SQL for both tables, and the digest that says which copy is good.
#include "app/store/rule_copies.hpp"

#include "app/store/statement.hpp"
#include "core/record/codec.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <set>
#include <sstream>

namespace qb::inline store {

namespace {

constexpr std::array copies{"frozen_rules", "frozen_rules_again"};

enum class copy_state { good, missing, damaged };

// One copy of that text, which goes into `text` where it fits its digest.
copy_state read_copy(const database& db, const char* table, std::int64_t id, std::string& text) {
  kept_statement ask = db.kept(fmt::format("SELECT digest, body FROM {} WHERE id=?1", table));
  ask->bind(1, id);
  const int code = ask->step();
  if (code == SQLITE_DONE || code == SQLITE_ERROR) return copy_state::missing; // row, or table
  if (code != SQLITE_ROW) return copy_state::damaged;
  text = ask->text(1);
  return sha256_hex(text) == ask->text(0) ? copy_state::good : copy_state::damaged;
}

bool put_again(database& db, std::int64_t id, const std::string& digest, const std::string& text) {
  kept_statement put = db.kept("INSERT OR IGNORE INTO frozen_rules_again VALUES(?1,?2,?3)");
  put->bind(1, id).bind(2, digest).bind(3, text);
  return put->step() == SQLITE_DONE;
}

// Of whatever can be read.
bool make_second_copies(database& db) {
  statement ask = db.prepare("SELECT id FROM frozen_rules WHERE id NOT IN"
                             " (SELECT id FROM frozen_rules_again)");
  std::vector<std::int64_t> alone;
  if (!ask.each_row([&] { alone.push_back(ask.integer(0)); })) return false;
  return std::all_of(alone.begin(), alone.end(), [&](std::int64_t id) {
    std::string text;
    return read_copy(db, copies.front(), id, text) != copy_state::good ||
           put_again(db, id, sha256_hex(text), text);
  });
}

std::set<std::int64_t> ids_that_logs_hold(const database& db) {
  std::set<std::int64_t> out;
  statement ask = db.prepare("SELECT DISTINCT rules FROM log_packed");
  (void)ask.each_row([&] { // past a damaged page there are no more to be had
    std::istringstream ids(ask.text(0));
    for (std::int64_t id = 0; ids >> id;)
      out.insert(id);
  });
  return out;
}

} // namespace

bool make_rule_tables(database& db) {
  return db.run("CREATE TABLE IF NOT EXISTS frozen_rules("
                " id INTEGER PRIMARY KEY AUTOINCREMENT,"
                " digest TEXT NOT NULL UNIQUE, body TEXT NOT NULL) STRICT;"
                "CREATE TABLE IF NOT EXISTS frozen_rules_again(id INTEGER PRIMARY KEY,"
                " digest TEXT NOT NULL, body TEXT NOT NULL) STRICT") &&
         make_second_copies(db);
}

std::optional<std::int64_t> keep_rules(database& db, std::string_view text) {
  const std::string digest = sha256_hex(text);
  kept_statement put =
      db.kept("INSERT INTO frozen_rules VALUES(NULL,?1,?2) ON CONFLICT(digest) DO NOTHING");
  put->bind(1, digest).bind(2, std::string(text));
  if (put->step() != SQLITE_DONE) return std::nullopt;
  kept_statement ask = db.kept("SELECT id FROM frozen_rules WHERE digest=?1");
  ask->bind(1, digest);
  if (ask->step() != SQLITE_ROW) return std::nullopt;
  const std::int64_t id = ask->integer(0);
  if (!put_again(db, id, digest, std::string(text))) return std::nullopt;
  return id;
}

std::optional<std::string> kept_rules(const database& db, std::int64_t id) {
  for (const char* table : copies) {
    std::string text;
    if (read_copy(db, table, id, text) == copy_state::good) return text;
  }
  return std::nullopt;
}

std::vector<std::string> damaged_rules(const database& db) {
  const auto twice = db.has_table(copies.back());
  std::vector<std::string> out;
  for (const std::int64_t id : ids_that_logs_hold(db)) {
    std::string text;
    const bool one = read_copy(db, copies.front(), id, text) == copy_state::good;
    const bool two = read_copy(db, copies.back(), id, text) == copy_state::good;
    if (one && (two || (twice && !*twice))) continue;
    out.push_back(fmt::format("rules {} that tests froze: {}", id,
                              one || two ? "one of two copies is damaged; the other is used, and "
                                           "no test is lost"
                                         : "no copy is whole, and those tests cannot be read"));
  }
  return out;
}

bool remove_unheld_rules(database& db) {
  const auto packed = db.has_table("log_packed");
  if (!packed || !*packed) return packed.has_value();
  return std::all_of(copies.begin(), copies.end(), [&](const char* table) {
    const auto there = db.has_table(table);
    if (!there || !*there) return there.has_value();
    return db.run(fmt::format("DELETE FROM {0} WHERE NOT EXISTS (SELECT 1 FROM log_packed AS l"
                              " WHERE instr(l.rules, ' ' || {0}.id || ' '))",
                              table));
  });
}

} // namespace qb::inline store
