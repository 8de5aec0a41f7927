// Logs that contradicted the kept one of their test: kept whole, and out of every count.
// A table of their own, made with the first of them: a store without any is as it was before.
#include "app/store/lab_store.hpp"
#include "app/store/statement.hpp"

namespace qb {

result<void> lab_store::set_aside(const log_row& row, const std::string& digest) {
  constexpr const char* make =
      "CREATE TABLE IF NOT EXISTS log_aside(entry INTEGER PRIMARY KEY AUTOINCREMENT,"
      " test_id TEXT NOT NULL, kit_number TEXT NOT NULL, digest TEXT NOT NULL,"
      " body TEXT NOT NULL, UNIQUE(test_id, digest)) STRICT";
  store::transaction write(db_);
  if (!write.begun() || !db_.run(make)) return tl::unexpected(write.failed("writing"));
  statement put = db_.prepare("INSERT OR IGNORE INTO log_aside VALUES(NULL,?1,?2,?3,?4)");
  put.bind(1, row.test_id).bind(2, row.kit_number);
  put.bind(3, digest).bind(4, row.body);
  if (put.step() != SQLITE_DONE || !write.commit()) return tl::unexpected(write.failed("writing"));
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

} // namespace qb
