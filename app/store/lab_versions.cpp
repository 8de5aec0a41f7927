// What the store keeps of versions beside the logs that count: those set aside, signatures, and
// what persons said. Each table is made with its first row: a store without any is as it was
// before.
#include "app/store/lab_store.hpp"
#include "app/store/statement.hpp"

namespace qb::inline store {

result<void> lab_store::write(const std::string& make,
                              const std::function<bool(store::database&)>& rows) {
  if (!db_.in_transaction()) bodies_.forget_ids();
  store::transaction all(db_);
  if (!all.begun() || !db_.run_kept(make) || !rows(db_) || !all.commit())
    return tl::unexpected(all.failed("writing"));
  return {};
}

result<std::vector<std::string>> lab_store::set_aside_of(const std::string& test_id) const {
  std::vector<std::string> out;
  const auto there = db_.has_table("log_aside");
  if (!there) return tl::unexpected(there.error());
  if (!*there) return out;
  statement ask = db_.prepare("SELECT body FROM log_aside WHERE test_id=?1 ORDER BY entry");
  ask.bind(1, test_id);
  if (!ask.each_row([&] { out.push_back(ask.text(0)); }))
    return tl::unexpected(db_.failed("reading"));
  return out;
}

result<void> lab_store::keep_signature(const kept_signature& s) {
  constexpr const char* make =
      "CREATE TABLE IF NOT EXISTS log_signature(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
      " test_id TEXT NOT NULL, digest TEXT NOT NULL, print TEXT NOT NULL, body TEXT NOT NULL,"
      " UNIQUE(test_id, digest, body)) STRICT";
  return write(make, [&](store::database& db) {
    statement put = db.prepare("INSERT OR IGNORE INTO log_signature VALUES(NULL,?1,?2,?3,?4)");
    put.bind(1, s.test_id).bind(2, s.digest).bind(3, s.print).bind(4, s.text);
    return put.step() == SQLITE_DONE;
  });
}

namespace {

result<void> add_signatures(const store::database& db, const char* table,
                            const std::string& columns, const std::string& test_id,
                            std::vector<kept_signature>& out) {
  const auto there = db.has_table(table);
  if (!there) return tl::unexpected(there.error());
  if (!*there) return {};
  statement ask =
      db.prepare("SELECT test_id, " + columns + ", body FROM " + table +
                 (test_id.empty() ? "" : " WHERE test_id=?1") + " ORDER BY test_id, rowid");
  if (!test_id.empty()) ask.bind(1, test_id);
  const auto take = [&] {
    out.push_back({ask.text(0), ask.integer(1), ask.text(2), ask.text(3), ask.text(4)});
  };
  if (!ask.each_row(take)) return tl::unexpected(db.failed("reading"));
  return {};
}

result<std::vector<kept_signature>> signatures_in(const store::database& db,
                                                  const std::string& test_id) {
  std::vector<kept_signature> out;
  for (const auto& [table, columns] :
       {std::pair("signature", "events, '', ''"), std::pair("log_signature", "0, digest, print")})
    if (const auto done = add_signatures(db, table, columns, test_id, out); !done)
      return tl::unexpected(done.error());
  return out;
}

} // namespace

result<std::vector<kept_signature>> lab_store::signatures_of(const std::string& test_id) const {
  return signatures_in(db_, test_id);
}

result<std::vector<kept_signature>> lab_store::signatures() const {
  return signatures_in(db_, "");
}

result<void> lab_store::choose_version(const log_choice_row& row) {
  constexpr const char* make =
      "CREATE TABLE IF NOT EXISTS log_choice(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
      " test_id TEXT NOT NULL, digest TEXT NOT NULL, seen TEXT NOT NULL, by TEXT NOT NULL,"
      " reason TEXT NOT NULL, at TEXT NOT NULL) STRICT";
  return write(make, [&](store::database& db) {
    statement put = db.prepare("INSERT INTO log_choice VALUES(NULL,?1,?2,?3,?4,?5,?6)");
    put.bind(1, row.test_id).bind(2, row.digest).bind(3, row.seen);
    put.bind(4, row.by).bind(5, row.reason).bind(6, row.at);
    return put.step() == SQLITE_DONE;
  });
}

result<std::vector<log_choice_row>> lab_store::choices_of(const std::string& test_id) const {
  std::vector<log_choice_row> out;
  const auto there = db_.has_table("log_choice");
  if (!there) return tl::unexpected(there.error());
  if (!*there) return out;
  statement ask = db_.prepare("SELECT test_id, digest, seen, by, reason, at FROM log_choice"
                              " WHERE test_id=?1 ORDER BY entry");
  ask.bind(1, test_id);
  const auto take = [&] {
    out.push_back({ask.text(0), ask.text(1), ask.text(2), ask.text(3), ask.text(4), ask.text(5)});
  };
  if (!ask.each_row(take)) return tl::unexpected(db_.failed("reading"));
  return out;
}

} // namespace qb::inline store
