// Signatures beside the logs of the laboratory's store.
// A table of their own, made with the first of them: a store without any is as it was before.
#include "app/store/lab_store.hpp"
#include "app/store/statement.hpp"

namespace qb {

result<void> lab_store::keep_signature(const std::string& test_id, std::int64_t events,
                                       const std::string& text) {
  constexpr const char* make = "CREATE TABLE IF NOT EXISTS signature(test_id TEXT NOT NULL,"
                               " events INTEGER NOT NULL, body TEXT NOT NULL,"
                               " PRIMARY KEY(test_id, events)) STRICT";
  store::transaction write(db_);
  if (!write.begun() || !db_.run(make)) return tl::unexpected(write.failed("writing"));
  statement put = db_.prepare("INSERT OR REPLACE INTO signature VALUES(?1,?2,?3)");
  put.bind(1, test_id).bind(2, events).bind(3, text);
  if (put.step() != SQLITE_DONE || !write.commit()) return tl::unexpected(write.failed("writing"));
  return {};
}

result<std::optional<std::string>> lab_store::signature_of(const std::string& test_id,
                                                           std::int64_t events) const {
  std::optional<std::string> out;
  const auto there = db_.has_table("signature");
  if (!there) return tl::unexpected(there.error());
  if (!*there) return out;
  statement ask = db_.prepare("SELECT body FROM signature WHERE test_id=?1 AND events=?2");
  ask.bind(1, test_id).bind(2, events);
  if (!ask.each_row([&] { out = ask.text(0); })) return tl::unexpected(db_.failed("reading"));
  return out;
}

result<std::vector<kept_signature>> lab_store::signatures() const {
  std::vector<kept_signature> out;
  const auto there = db_.has_table("signature");
  if (!there) return tl::unexpected(there.error());
  if (!*there) return out;
  statement ask =
      db_.prepare("SELECT test_id, events, body FROM signature ORDER BY test_id, events");
  const auto take = [&] { out.push_back({ask.text(0), ask.integer(1), ask.text(2)}); };
  if (!ask.each_row(take)) return tl::unexpected(db_.failed("reading"));
  return out;
}

} // namespace qb
