// What the laboratory wrote down while receiving, in the same SQLite file as the logs, in tables of
// its own: boxes, tubes, paper sheets, readings, decisions.
//
// Every table has entry INTEGER PRIMARY KEY (rising) and kit TEXT; nothing is edited, the last
// entry counts. A missing value is an empty text.
//   bench_arrival   at, by, identifiers, protocol, tested, posted, completed, stopped, entered
//   bench_tube      box INTEGER (the arrival's entry), sample INTEGER, present INTEGER,
//                   lid ("good", "bad"), label ("07:30"), maker_code
//   bench_scan      boxes INTEGER (the box's entries then), code, by, at: tubes scanned before
//   their
//                   box is told; its next entry has them, and they count no more
//   bench_paper     protocol, day, times ("07:30 07:45 - …"), past_midnight INTEGER,
//                   drink_start, drink_end, written, by, at, scores
//   bench_reading   sample INTEGER, h2, ch4, co2 (decimals as they were read, "<1", ">200"),
//                   measured_at, raw, at, file, mark ("invalid"); the same reading of the same tube
//                   is there once
//   bench_choice    sample INTEGER, reading INTEGER (its entry), by, reason, at
//   bench_override  rule, sample INTEGER (0: the test), by, reason, at, withdrawn INTEGER
//   bench_conclusion words, by, at, seen (what it was drawn from: core/case/conclusion_basis.hpp)
//   bench_forgotten protocol, tests INTEGER, due, taken, on_time, early, late, missed: counts of
//                   people who were forgotten, added up by protocol; no kit, no day
// Columns that later versions added stand last, and a table without them is read as if they were
// empty; the next write adds them. Instants are RFC 3339 UTC. The tables are made by the first
// write: a store without them is as it was before there were. Each `put` is one transaction that is
// on the disk when it returns.
#pragma once

#include "app/store/database.hpp"
#include "app/store/receiving_rows.hpp"
#include "core/base/result.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace qb {

// What a batch of readings came to.
struct added_readings {
  std::int64_t fresh{0};
  std::int64_t known{0};
};

// One connection to the store, for receiving's tables alone.
class receiving_store {
public:
  // Opens the file of a laboratory's store; refuses as lab_store::open does.
  [[nodiscard]] static result<receiving_store> open(const std::string& path);

  // Each answers the entry it was given.
  [[nodiscard]] result<std::int64_t> put(const arrival_row& row);
  [[nodiscard]] result<std::int64_t> put(const scan_row& row);
  [[nodiscard]] result<std::int64_t> put(const paper_row& row);
  [[nodiscard]] result<std::int64_t> put(const choice_row& row);
  [[nodiscard]] result<std::int64_t> put(const override_row& row);
  [[nodiscard]] result<std::int64_t> put(const conclusion_row& row);
  // A box and what was found in it; the tubes get the box's entry.
  [[nodiscard]] result<std::int64_t> put_box(const arrival_row& box, std::vector<tube_row> tubes);
  // All or none.
  [[nodiscard]] result<added_readings> put(const std::vector<reading_row>& rows);

  // Of one kit number; an empty text is all kits.
  [[nodiscard]] result<receiving_rows> find(const std::string& kit) const;

  // Takes everything of that kit out of the store, logs, codes and signatures too, adds the counts,
  // and overwrites what was there on the disk. Answers how many rows went.
  [[nodiscard]] result<std::int64_t> forget(const std::string& kit,
                                            const std::vector<forgotten_row>& counts);
  [[nodiscard]] result<std::vector<forgotten_row>> forgotten() const;

private:
  explicit receiving_store(store::database db) : db_(std::move(db)) {}
  template <typename Insert>
  [[nodiscard]] result<std::int64_t> in_one(const Insert& insert);

  store::database db_;
};

} // namespace qb
