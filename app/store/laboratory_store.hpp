// What a laboratory says of itself, and what it handed out, in the same SQLite file as its logs, in
// tables of its own. Nothing is edited: a later entry stands in place of an earlier one of the same
// name or kit, and who told it, and when, stays. Secret keys are never here: paths alone.
//
//   own_setting    name ("profile", "assets", "zone", "identity", "layout", "inbox", "tables",
//                  "reports"), value, by, at
//   own_person     name, code, roles ("bench", "reader", "bench+reader"; "none": has left),
//                  key (public), key_file, by, at
//   own_issued     kit, code, protocol, lot, expires, by, at: kits that were given out
//   own_requested  kit, name, birth_date, hospital_number, order_number, source (SHA-256 of the
//                  file), by, at
//   own_handed     kit, test (its id; empty: none is known under the kit number), what ("report",
//                  "export"), of (SHA-256 of what it was made from), by, at; and as "table" each
//                  table of readings that was taken from the folder, of no kit
//
// Every table has entry INTEGER PRIMARY KEY, rising. A missing value is an empty text, an instant
// RFC 3339 UTC. The tables are made by the first write; a store without them was never set up. Each
// `put` is one transaction that is on the disk when it returns.
#pragma once

#include "app/store/database.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace qb::inline store {

// One setting as it was told.
struct setting_row {
  std::string name;
  std::string value;
  std::string by;
  std::string at;
};

// One entry about a person; the last of a name counts.
struct person_row {
  std::string name;
  std::string code;
  std::string roles;
  std::string key;
  std::string key_file;
  std::string by;
  std::string at;
};

// A kit that was given out.
struct issued_kit_row {
  std::string kit;
  std::string code;
  std::string protocol;
  std::string lot;
  std::string expires;
  std::string by;
  std::string at;
};

// Whom a kit is meant for; the last of a kit counts.
struct requested_row {
  std::string kit;
  std::string name;
  std::string birth_date;
  std::string hospital_number;
  std::string order_number;
  std::string source;
  std::string by;
  std::string at;
};

// What was handed out of a test.
struct handed_row {
  std::string kit;
  std::string test;
  std::string what;
  std::string of;
  std::string by;
  std::string at;
};

// What a set-up writes at once.
struct laboratory_rows {
  std::vector<setting_row> settings;
  std::vector<person_row> people;
};

// One connection to the store, for the laboratory's own tables alone.
class laboratory_store {
public:
  // Opens the file of a laboratory's store, which must be there; refuses as lab_store::open does.
  [[nodiscard]] static result<laboratory_store> open(const std::string& path);

  // All or none.
  [[nodiscard]] result<void> put(const laboratory_rows& rows);
  [[nodiscard]] result<void> put(const std::vector<requested_row>& rows);
  [[nodiscard]] result<void> put(const std::vector<handed_row>& rows);
  // Refuses a kit number that was issued before, whoever issued it meanwhile.
  [[nodiscard]] result<void> put(const std::vector<issued_kit_row>& rows);

  // By rising entry; those of a kit, or of all where that is empty.
  [[nodiscard]] result<laboratory_rows> settings() const;
  [[nodiscard]] result<std::vector<issued_kit_row>> issued(const std::string& kit) const;
  [[nodiscard]] result<std::vector<requested_row>> requests(const std::string& kit) const;
  [[nodiscard]] result<std::vector<handed_row>> handed(const std::string& what) const;

private:
  explicit laboratory_store(store::database db) : db_(std::move(db)) {}
  template <typename Insert>
  [[nodiscard]] result<void> in_one(const Insert& insert);

  store::database db_;
};

} // namespace qb::inline store
