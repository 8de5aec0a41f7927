// What every SQLite file of ours has in common: how it is opened and closed, which transaction a
// write is, and how a failed step becomes a refusal. What the tables mean is its owner's.
#pragma once

#include "core/base/result.hpp"

#include <chrono>
#include <cstdint>
#include <initializer_list>
#include <map>
#include <memory>
#include <optional>
#include <string>

struct sqlite3;

namespace qb::inline store {
class statement;
class kept_statement;
} // namespace qb::inline store

namespace qb::inline store {

// Whether a file is only read, is there and also written, or is made where there is none.
enum class access { read, write, make };

// How one kind of file is opened, and the words of its refusals.
struct file_rules {
  access mode;
  std::chrono::milliseconds patience; // how long another may hold the file before it is refused
  const char* pragmas;                // run in this order, before anything is read
  const char* kind;                   // "a test's journal": what a file of another kind is not
  const char* holder;                 // who has it while it is busy
  const char* one_holder;             // what is expected instead
  const char* disk;                   // what is expected of the machine
  const char* journal{"TRUNCATE"};    // SQLite's journal_mode, what becomes of a rollback journal
};

// One connection to one file. Closed when this is gone. Only a regular file is opened, and what its
// schema would have SQLite do by itself (triggers, views, functions) is not done.
class database {
public:
  [[nodiscard]] static result<database> open(const std::string& path, const file_rules& rules);

  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] const file_rules& rules() const { return rules_; }

  // Runs statements that answer nothing; false where one fails.
  [[nodiscard]] bool run(const std::string& sql);
  // The same for one statement that is run by the thousand.
  [[nodiscard]] bool run_kept(const std::string& sql);
  [[nodiscard]] statement prepare(const std::string& sql) const;
  // The same, prepared once and kept for the next use: for what is asked by the thousand. One use
  // at a time.
  [[nodiscard]] kept_statement kept(const std::string& sql) const;

  // Why the last call failed: the file is held, is of another kind, or the machine failed `doing`.
  [[nodiscard]] refusal failed(const char* doing) const;

  // Of the table "meta", which every file of ours has; empty where there is none such.
  [[nodiscard]] std::string meta(const char* key) const;
  // Refuses a file whose "format" is another, and one of a newer "version" than those, the last of
  // which is today's.
  [[nodiscard]] std::optional<refusal>
  no_to_format(const char* format, std::initializer_list<const char*> versions) const;

  [[nodiscard]] result<bool> has_table(const char* name) const;
  // Whether it holds nothing at all yet.
  [[nodiscard]] result<bool> is_blank() const;

  [[nodiscard]] std::int64_t last_entry() const; // of the last row that was inserted
  [[nodiscard]] std::int64_t changes() const;    // rows the last statement changed
  [[nodiscard]] bool in_transaction() const;

  // All of it as it is at one moment, into a new file, by SQLite's own backup: a write of another
  // hand is wholly in it or not at all. Written beside, synced and renamed, mode 0600. Refuses (as
  // `not_now`) a path where something is; what fails leaves nothing there.
  [[nodiscard]] result<void> copy_to(const std::string& path) const;
  // The same into a file beside this one, under the first free name of PATH.before-1 and so on: of
  // a file as an earlier version left it, before it grows or its rows are changed.
  [[nodiscard]] result<void> keep_copy() const;

  database(database&&) noexcept;
  database& operator=(database&&) noexcept;
  ~database();

private:
  struct closer {
    void operator()(sqlite3* db) const;
  };
  database(sqlite3* db, std::string path, const file_rules& rules);
  [[nodiscard]] refusal another_kind() const;
  // `told` is the path that a refusal names.
  [[nodiscard]] result<void> copy_into(const std::string& path, const std::string& told) const;

  std::unique_ptr<sqlite3, closer> db_;
  std::string path_;
  file_rules rules_;
  mutable std::map<std::string, std::unique_ptr<statement>> kept_;
};

// One write as a scope: all of it is on the disk when `commit` answers true, and what was not
// committed is taken back when this is gone. Within another it is a part of that one: it is on the
// disk when the outer is, and can be taken back by itself.
class transaction {
public:
  explicit transaction(database& db);
  ~transaction() { (void)take_back(); }
  transaction(const transaction&) = delete;
  transaction& operator=(const transaction&) = delete;

  [[nodiscard]] bool begun() const { return begun_; }
  [[nodiscard]] bool commit();
  // Takes back what was not committed; false where that fails.
  [[nodiscard]] bool take_back();
  // Takes it back and says why the last call failed, and whether taking back failed too.
  [[nodiscard]] refusal failed(const char* doing);

private:
  database& db_;
  bool inner_;
  bool begun_;
  bool open_;
};

} // namespace qb::inline store
