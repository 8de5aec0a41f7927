// The key in meta, the hashes in a table of their own.
#include "app/store/forgotten_tests.hpp"

#include "app/store/statement.hpp"
#include "core/record/codec.hpp"

namespace qb::inline store {

namespace {

constexpr const char* key_name = "forget_key";

std::string hash_of(const std::string& key, const std::string& test) {
  return sha256_hex(key + sha256_hex(key + test));
}

} // namespace

bool note_forgotten(database& db, const std::string& test, const std::string& chance,
                    const std::string& at) {
  if (!db.run("CREATE TABLE IF NOT EXISTS forgotten_test(hash TEXT PRIMARY KEY,"
              " at TEXT NOT NULL) STRICT"))
    return false;
  statement key = db.prepare("INSERT OR IGNORE INTO meta VALUES(?1,?2)");
  key.bind(1, std::string(key_name)).bind(2, chance);
  if (key.step() != SQLITE_DONE) return false;
  statement put = db.prepare("INSERT OR IGNORE INTO forgotten_test VALUES(?1,?2)");
  put.bind(1, hash_of(db.meta(key_name), test)).bind(2, at);
  return put.step() == SQLITE_DONE;
}

result<bool> is_forgotten(const database& db, const std::string& test) {
  const auto there = db.has_table("forgotten_test");
  if (!there) return tl::unexpected(there.error());
  if (!*there) return false;
  kept_statement ask = db.kept("SELECT 1 FROM forgotten_test WHERE hash = ?1");
  ask->bind(1, hash_of(db.meta(key_name), test));
  bool found = false;
  if (!ask->each_row([&] { found = true; })) return tl::unexpected(db.failed("reading"));
  return found;
}

} // namespace qb::inline store
