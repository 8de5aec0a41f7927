// The laboratory's store: one SQLite file holding the logs that were taken in, as rows of text.
//
// Tables: log(test_id TEXT, events INTEGER, head TEXT, kit_number TEXT, protocol TEXT,
// started TEXT, rehearsal INTEGER, matches INTEGER, filled INTEGER, tubes INTEGER, body TEXT,
// PRIMARY KEY(test_id, events)): a log's whole text, unchanged, and beside it what a list shows;
// where a log grew, every version is kept and the one with the most events counts;
// code with the same columns: results that came by code, their packed bytes in hexadecimal as the
// body; made with the first of them, so that a store without any is as it was before there were;
// signature(test_id, events, body): the signature file that came with a log, made likewise;
// log_aside(entry, test_id, kit_number, digest, body): logs that contradicted the kept one of their
// test, unchanged; nothing of them counts. Made likewise;
// meta(key TEXT, value TEXT): "format" = "quarterbreath-lab-store", "version" = "1".
// synchronous=FULL with journal_mode=TRUNCATE: a log that was taken in is on the disk when `put`
// returns; each is a transaction of its own, so that a batch killed in the middle leaves whole
// logs. The file is made with mode 0600 by the caller before it is opened here.
#pragma once

#include "app/store/database.hpp"
#include "core/base/result.hpp"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace qb {

// One version of one test's log.
struct log_row {
  std::string test_id;
  std::int64_t events{0};
  std::string head;
  std::string kit_number;
  std::string protocol;
  std::string started; // RFC 3339 UTC: tube 1 closed, else the planned start; may be empty
  bool rehearsal{false};
  bool matches{true}; // whether it matches its own record
  std::int64_t filled{0};
  std::int64_t tubes{0};
  std::string body;    // the whole log; left empty by `list`
  bool by_code{false}; // of the table of codes
};

// A signature and the version of the log it came with.
struct kept_signature {
  std::string test_id;
  std::int64_t events{0};
  std::string text;
};

// Which tests a question is about.
enum class which_tests { all, of_kit_number, of_test_id };

// Only an empty file becomes a store; any other must be one already.
class lab_store {
public:
  // Opens the file, making its tables in an empty one. Refuses a file of another kind, a newer
  // version, and (as `missing`) a file that is not there.
  [[nodiscard]] static result<lab_store> open(const std::string& path);

  // Says whether `row` is to be kept, given the latest kept version of the same test (or nullptr);
  // false keeps nothing and is no refusal.
  using judge = std::function<result<bool>(const log_row* kept)>;

  // Asks `keep` and stores the row, both in one transaction, so that two imports at once cannot
  // disagree. Answers what `keep` answered.
  [[nodiscard]] result<bool> put(const log_row& row, const judge& keep);

  // The latest version of each test, ordered by kit number, start and test id; without the bodies.
  [[nodiscard]] result<std::vector<log_row>> list() const;

  // The same with bodies, for the tests of that kit number or test id.
  [[nodiscard]] result<std::vector<log_row>> find(which_tests which, const std::string& id) const;

  // The same for results that came by code; a code row knows nothing of logs, nor they of it.
  [[nodiscard]] result<bool> put_code(const log_row& row, const judge& keep);
  [[nodiscard]] result<std::vector<log_row>> list_codes() const;
  [[nodiscard]] result<std::vector<log_row>> find_codes(which_tests which,
                                                        const std::string& id) const;

  // Keeps a log that contradicts the kept one of its test beside it; one digest of its bytes once.
  [[nodiscard]] result<void> set_aside(const log_row& row, const std::string& digest);
  // The texts of those of that test, in the order they came.
  [[nodiscard]] result<std::vector<std::string>> set_aside_of(const std::string& test_id) const;

  // The signature that came with a version of a test's log; a later one replaces it. Nothing where
  // none came. Of the log it says nothing by itself: whoever asks checks it.
  [[nodiscard]] result<void> keep_signature(const std::string& test_id, std::int64_t events,
                                            const std::string& text);
  [[nodiscard]] result<std::optional<std::string>> signature_of(const std::string& test_id,
                                                                std::int64_t events) const;
  // All of them, by test and version.
  [[nodiscard]] result<std::vector<kept_signature>> signatures() const;

private:
  enum class table { log, code };
  explicit lab_store(store::database db) : db_(std::move(db)) {}
  [[nodiscard]] result<std::vector<log_row>> select(table from, which_tests which,
                                                    const std::string& id, bool bodies) const;
  [[nodiscard]] result<bool> judge_and_insert(table into, const log_row& row, const judge& keep);
  [[nodiscard]] result<bool> put_into(table into, const log_row& row, const judge& keep);

  store::database db_;
};

} // namespace qb
