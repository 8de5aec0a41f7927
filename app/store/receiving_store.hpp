// What the laboratory wrote down while receiving, in the same SQLite file as the logs, in tables of
// its own: boxes, tubes, paper sheets, readings, decisions.
//
// Every table has entry INTEGER PRIMARY KEY (rising), kit TEXT, and test TEXT: the test that the
// row was entered for, empty where none was known then. Whose a row is in the end is asked of
// core/receiving/whose.hpp alone. Nothing is edited; the last entry counts. A missing value is an
// empty text.
//   bench_arrival   at, by, identifiers, protocol, tested, posted, completed, stopped, entered,
//                   person (JSON: core/receiving/person.hpp), lot, expires, stored
//   bench_tube      box INTEGER (the arrival's entry), sample INTEGER, present INTEGER,
//                   lid ("good", "bad"), label ("07:30"), maker_code
//   bench_scan      boxes INTEGER (the kit's box entries then), code, by, at: tubes scanned before
//                   their box is told; its next entry has them, and they count no more
//   bench_paper     protocol, day, times ("07:30 07:45 - …"), past_midnight INTEGER,
//                   drink_start, drink_end, written, by, at, scores, person
//   bench_reading   sample INTEGER, h2, ch4, co2 (decimals as they were read, "<1", ">200"),
//                   measured_at, raw, at, file, mark ("invalid"), run, analyser, calibration,
//                   control
//                   ("passed", "failed"), taken_by; the same reading of the same tube is there once
//   bench_choice    sample INTEGER, reading INTEGER (its entry), by, reason, at
//   bench_override  rule, sample INTEGER (0: the test), by, reason, at, withdrawn INTEGER
//   bench_conclusion words, by, at, seen (what it was drawn from: core/case/conclusion_basis.hpp),
//                   kind, number, reason, lack
//   bench_issued    number INTEGER (the conclusion's), format, body: the bytes that went out
//   bench_signature number INTEGER (the conclusion's), body (the very bytes that its reader
//                   signed), signature (minisign's four lines), key (public: "RW…")
//   bench_ruling    what, about INTEGER (a row's entry), tube INTEGER, says, to_kit, to_tube
//                   INTEGER, known (JSON), by, reason, at: core/receiving/kit_rows.hpp
//   bench_forgotten protocol, tests INTEGER, due, taken, on_time, early, late, missed: counts of
//                   people who were forgotten, added up by protocol; no kit, no day
//   forgotten_test  see app/store/forgotten_tests.hpp
// Columns that later versions added stand last, and a table without them is read as if they were
// empty; the next write adds them, after a copy of the file was put beside it
// (STORE.before-1, -2, …). Instants are RFC 3339 UTC. The tables are made by the first write: a
// store without them is as it was before there were. Each `put` is one transaction that is on the
// disk when it returns.
#pragma once

#include "app/store/database.hpp"
#include "app/store/receiving_rows.hpp"
#include "core/base/result.hpp"

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace qb::inline store {

// What a batch of readings came to.
struct added_readings {
  std::int64_t fresh{0};
  std::int64_t known{0};
};

// A kit number and what was there of it (`state_of`) when it was looked at.
struct seen_kit {
  std::string kit{}; // empty: nothing was looked at
  std::string state{};
};

// Where a refusal says that more came since it was looked at.
inline constexpr const char* more_came = "what is there";

// What is kept with a conclusion: the bytes that go out, and its reader's signature.
struct with_conclusion {
  std::vector<issued_row> bytes;
  std::vector<conclusion_signature_row> signatures; // none where the reader has no key
};

// A row by its table ("bench_reading") and entry.
struct entry_name {
  std::string table;
  std::int64_t entry{0};
};

// What is to be forgotten: one test with its log, code and signature, and its rows.
struct forgetting {
  std::string test;             // empty: of a kit number without any test
  std::string kit;              // under which it is known
  std::vector<entry_name> rows; // tubes go with their box
  std::string chance;           // the key where the store has none: app/store/forgotten_tests.hpp
  std::string at;
  bool request{false}; // what was asked for under the kit number too
};

// One connection to the store, for receiving's tables alone.
class receiving_store {
public:
  // Opens the file of a laboratory's store; refuses as lab_store::open does.
  [[nodiscard]] static result<receiving_store> open(const std::string& path);

  // What is there of a kit number now: another text as soon as anything more is, a log too. Asked
  // before the rows are read, it is what whoever read them has seen at least.
  [[nodiscard]] result<std::string> state_of(const std::string& kit) const;

  // Each answers the entry it was given. With `seen` nothing is kept where more is there by then:
  // refused as `not_now` at `more_came`.
  [[nodiscard]] result<std::int64_t> put(const arrival_row& row, const seen_kit& seen = {});
  [[nodiscard]] result<std::int64_t> put(const scan_row& row, const seen_kit& seen = {});
  [[nodiscard]] result<std::int64_t> put(const paper_row& row, const seen_kit& seen = {});
  [[nodiscard]] result<std::int64_t> put(const choice_row& row, const seen_kit& seen = {});
  [[nodiscard]] result<std::int64_t> put(const override_row& row, const seen_kit& seen = {});
  [[nodiscard]] result<std::int64_t> put(const conclusion_row& row, const seen_kit& seen = {});
  // A conclusion and what is kept with it.
  [[nodiscard]] result<std::int64_t> put_issued(const conclusion_row& row,
                                                const with_conclusion& with, const seen_kit& seen);
  // A box and what was found in it; the tubes get the box's entry.
  [[nodiscard]] result<std::int64_t> put_box(const arrival_row& box, std::vector<tube_row> tubes,
                                             const seen_kit& seen = {});
  // All or none.
  [[nodiscard]] result<added_readings> put(const std::vector<reading_row>& rows,
                                           const std::vector<seen_kit>& seen = {});
  [[nodiscard]] result<std::int64_t> put(const std::vector<ruling_row>& rows,
                                         const std::vector<seen_kit>& seen);

  // Everything; of a damaged file what can be read, and the kit numbers under which rows are that
  // cannot.
  [[nodiscard]] result<receiving_rows> all_readable(std::set<std::string>& lost) const;
  // Of one kit number, and of those tests whatever number they were entered under; readings that
  // were moved there too. An empty text is all kits.
  [[nodiscard]] result<receiving_rows> find(const std::string& kit,
                                            const std::vector<std::string>& tests = {}) const;
  // The kit numbers under which sheets of that test were entered.
  [[nodiscard]] result<std::vector<std::string>> sheets_of(const std::string& test) const;
  // What was issued with a test's conclusion of that number.
  [[nodiscard]] result<std::vector<issued_row>> issued_of(const std::string& test,
                                                          std::int64_t number) const;
  // The signatures under it, by rising entry.
  [[nodiscard]] result<std::vector<conclusion_signature_row>>
  signatures_of(const std::string& test, std::int64_t number) const;

  // Takes it out of the store, adds the counts, and overwrites what was there on the disk. Answers
  // how many rows went.
  [[nodiscard]] result<std::int64_t> forget(const forgetting& what,
                                            const std::vector<forgotten_row>& counts);
  [[nodiscard]] result<std::vector<forgotten_row>> forgotten() const;

private:
  explicit receiving_store(store::database db) : db_(std::move(db)) {}
  template <typename Insert>
  [[nodiscard]] result<std::int64_t> in_one(const std::vector<seen_kit>& seen,
                                            const Insert& insert);
  [[nodiscard]] std::optional<refusal> no_to_seen(const std::vector<seen_kit>& seen) const;
  [[nodiscard]] result<void> keep_copy() const;

  store::database db_;
};

} // namespace qb::inline store
