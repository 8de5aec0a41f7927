// Signatures beside the logs of the laboratory's store.
// A table of their own, made with the first of them: a store without any is as it was before.
#include "app/store/lab_store.hpp"
#include "app/store/statement.hpp"

namespace qb {

namespace {

// SQLITE_ROW where the table is there, SQLITE_DONE where it is not.
int signature_table(sqlite3* db) {
  statement there(db, "SELECT 1 FROM sqlite_schema WHERE type='table' AND name='signature'");
  return there.step();
}

} // namespace

result<void> lab_store::keep_signature(const std::string& test_id, std::int64_t events,
                                       const std::string& text) {
  constexpr const char* make = "CREATE TABLE IF NOT EXISTS signature(test_id TEXT NOT NULL,"
                               " events INTEGER NOT NULL, body TEXT NOT NULL,"
                               " PRIMARY KEY(test_id, events)) STRICT";
  if (!run_sql(db_.get(), "PRAGMA journal_mode=TRUNCATE") || !run_sql(db_.get(), make))
    return tl::unexpected(disk_refusal("writing"));
  statement put(db_.get(), "INSERT OR REPLACE INTO signature VALUES(?1,?2,?3)");
  put.bind(1, test_id).bind(2, events).bind(3, text);
  if (put.step() != SQLITE_DONE) return tl::unexpected(disk_refusal("writing"));
  return {};
}

result<std::optional<std::string>> lab_store::signature_of(const std::string& test_id,
                                                           std::int64_t events) const {
  int code = signature_table(db_.get());
  if (code == SQLITE_DONE) return std::optional<std::string>();
  if (code != SQLITE_ROW) return tl::unexpected(disk_refusal("reading"));
  statement ask(db_.get(), "SELECT body FROM signature WHERE test_id=?1 AND events=?2");
  ask.bind(1, test_id).bind(2, events);
  code = ask.step();
  if (code == SQLITE_ROW) return std::optional<std::string>(ask.text(0));
  if (code == SQLITE_DONE) return std::optional<std::string>();
  return tl::unexpected(disk_refusal("reading"));
}

result<std::vector<kept_signature>> lab_store::signatures() const {
  std::vector<kept_signature> out;
  int code = signature_table(db_.get());
  if (code == SQLITE_DONE) return out;
  if (code != SQLITE_ROW) return tl::unexpected(disk_refusal("reading"));
  statement ask(db_.get(), "SELECT test_id, events, body FROM signature ORDER BY test_id, events");
  for (code = ask.step(); code == SQLITE_ROW; code = ask.step())
    out.push_back({ask.text(0), ask.integer(1), ask.text(2)});
  if (code != SQLITE_DONE) return tl::unexpected(disk_refusal("reading"));
  return out;
}

} // namespace qb
