// The laboratory's store: one SQLite file holding the logs that were taken in, as rows of text.
//
// Tables: log(test_id TEXT, events INTEGER, head TEXT, kit_number TEXT, protocol TEXT,
// started TEXT, rehearsal INTEGER, matches INTEGER, filled INTEGER, tubes INTEGER, body TEXT,
// PRIMARY KEY(test_id, events)): a log's whole text, unchanged, and beside it what a list shows;
// where a log grew, every version is kept and the one with the most events counts. Its text stands
// packed in log_packed (app/store/packed_bodies.hpp), and the body here is empty; a store of an
// earlier version has it here, and what is there stays so;
// code with the same columns: results that came by code, their packed bytes in hexadecimal as the
// body; made with the first of them, so that a store without any is as it was before there were;
// log_signature(entry, test_id, digest, print, body): signature files that came with the bytes of
// that SHA-256, and the print of the key that they hold by, empty where they do not; made likewise.
// Stores of earlier versions have signature(test_id, events, body) instead, and both are read;
// log_aside(entry, test_id, kit_number, digest, body): versions that do not count, unchanged:
// others of their test contradict them, or are better signed (core/report/provenance.hpp). Made
// likewise; log_choice(entry, test_id, digest, seen, by, reason, at): which version a named person
// says counts, of those digests; the last entry counts. Made likewise; meta(key TEXT, value TEXT):
// "format" = "quarterbreath-lab-store", "version" = "2"; "1" has no log_packed, and becomes "2"
// with the next log, after a copy of the file was put beside it. synchronous=FULL with
// journal_mode=TRUNCATE: a log that was taken in is on the disk when `put` returns, or, of a group,
// when that is kept; either is one transaction, so that a batch killed in the middle leaves whole
// logs. The file is made with mode 0600 by the caller before it is opened here.
#pragma once

#include "app/store/database.hpp"
#include "app/store/packed_bodies.hpp"
#include "core/base/result.hpp"

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline store {

// How long another command may hold the file before this one gives up.
inline constexpr std::chrono::seconds lab_patience{5};

// How a command that writes opens the file, whichever of its tables it is after.
inline constexpr store::file_rules lab_file_rules{
    store::access::write,
    lab_patience,
    "PRAGMA synchronous=FULL",
    "a laboratory's store",
    "another command that holds the store",
    "one command that writes at a time",
    "a disk that can be read and written, with space left"};

// Refuses a file that is no store of a version that is read here.
[[nodiscard]] std::optional<refusal> no_to_lab_format(const store::database& db);

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
  // Pieces of the body, in their order, that other logs hold too and are to be kept once. Only for
  // writing; what they point into must outlive that.
  std::vector<std::string_view> shared{};
};

// A signature and the version of the log it came with.
struct kept_signature {
  std::string test_id;
  std::int64_t events{0}; // in a store of an earlier version, which has no digest; else 0
  std::string digest;     // SHA-256 of the bytes that it came with
  std::string print;      // of the key it holds by; empty where it does not, or is of earlier
  std::string text;
};

// A version of a log by the SHA-256 of its bytes.
struct version_row {
  log_row row;
  std::string digest;
};

// A named person's word on which version of a test counts.
struct log_choice_row {
  std::string test_id;
  std::string digest;
  std::string seen; // digests of all versions that were here then, with spaces between
  std::string by;
  std::string reason;
  std::string at; // RFC 3339 UTC
};

// Which tests a question is about.
enum class which_tests { all, of_kit_number, of_test_id };

// Only an empty file becomes a store; any other must be one already.
class lab_store {
public:
  // Opens the file, making its tables in an empty one, and brings kit numbers that an earlier
  // version kept as they were typed under their one form (app/store/kit_folding.hpp). Refuses a
  // file of another kind, a newer version, and (as `missing`) a file that is not there.
  [[nodiscard]] static result<lab_store> open(const std::string& path);

  // What is put while one of these lives is on the disk when `keep` answers well, or none of it:
  // for many logs one sync. It holds the file meanwhile, so nobody is waited for.
  class group {
  public:
    explicit group(lab_store& s) : write_(s.db_) { s.bodies_.forget_ids(); }
    [[nodiscard]] bool begun() const { return write_.begun(); }
    [[nodiscard]] result<void> keep();

  private:
    store::transaction write_;
  };
  // To be called before a group or a put: makes what a store of an earlier version lacks.
  [[nodiscard]] result<void> grow();

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

  // Every version in the table of logs of that test, by their events, with bodies.
  [[nodiscard]] result<std::vector<log_row>> versions_of(const std::string& test_id) const;

  // The only thing that is here of that test, where it is one version of its log: neither signature
  // nor choice, neither another version nor a code.
  [[nodiscard]] result<std::optional<log_row>> only_version(const std::string& test_id) const;

  // Keeps a version that does not count beside the others; one digest of its bytes once.
  [[nodiscard]] result<void> set_aside(const log_row& row, const std::string& digest);
  // The texts of those of that test, in the order they came.
  [[nodiscard]] result<std::vector<std::string>> set_aside_of(const std::string& test_id) const;
  // Moves versions of one test between the two, all or none: those that count from now on, and
  // those that do not any more.
  [[nodiscard]] result<void> move_versions(const std::vector<version_row>& count,
                                           const std::vector<version_row>& aside);

  // A signature that came with a version of a log; each text once. Of the log it says nothing by
  // itself: whoever asks checks it.
  [[nodiscard]] result<void> keep_signature(const kept_signature& s);
  // Those of a test, or all of them; in the order of test and entry, those of earlier stores first.
  [[nodiscard]] result<std::vector<kept_signature>> signatures_of(const std::string& test_id) const;
  [[nodiscard]] result<std::vector<kept_signature>> signatures() const;

  // Which version of a test counts, as persons said it, in that order.
  [[nodiscard]] result<void> choose_version(const log_choice_row& row);
  [[nodiscard]] result<std::vector<log_choice_row>> choices_of(const std::string& test_id) const;

  // As store::database::copy_to.
  [[nodiscard]] result<void> copy_to(const std::string& path) const { return db_.copy_to(path); }
  // Whether a person asked for that test to be forgotten: it is not to be taken in again.
  [[nodiscard]] result<bool> was_forgotten(const std::string& test_id) const;

private:
  enum class table { log, code };
  explicit lab_store(store::database db) : db_(std::move(db)) {}
  [[nodiscard]] bool insert_log(const log_row& row);
  [[nodiscard]] result<std::vector<log_row>> select(table from, which_tests which,
                                                    const std::string& id, bool bodies) const;
  // The tests that the indexes name, where the table itself cannot be read through: a row that
  // cannot be read has its test, events and kit number alone.
  [[nodiscard]] std::optional<std::vector<log_row>> named_by_indexes() const;
  [[nodiscard]] result<bool> judge_and_insert(table into, const log_row& row, const judge& keep);
  [[nodiscard]] result<bool> put_into(table into, const log_row& row, const judge& keep);
  [[nodiscard]] result<void> write(const std::string& make,
                                   const std::function<bool(store::database&)>& rows);
  // With its text, where that is packed; empty where it is damaged.
  void unpack(log_row& row) const;

  store::database db_;
  store::packed_bodies bodies_;
};

} // namespace qb::inline store
