// The patient's journal: one SQLite file a test, holding events as rows of text.
//
// Tables: event(seq INTEGER PRIMARY KEY, sealed BLOB): an event's canonical JSON and its chained
// hash; draft(key TEXT PRIMARY KEY, sealed BLOB): what was typed and not yet confirmed; meta(key,
// value): "format" = "quarterbreath-journal", "version" = "2", and "erased" = "yes" in one whose
// test was erased and whose file is still to be removed. What is sealed, and by which key, say
// app/store/sealed_rows.hpp and app/store/journal_key.hpp: numbers, lengths and the names of drafts
// are open, no word and no time is. Version 1 has event(seq, body TEXT, hash TEXT) and draft(key,
// value TEXT) and no key; such a journal is read and goes on as it is. synchronous=FULL with
// journal_mode=PERSIST: a commit is on the disk when it returns, and the rollback journal, which
// holds pages as they were, keeps its blocks until it is overwritten with the test's other files.
// The file is made with mode 0600 by the caller before it is opened here. After a failed write, of
// events, a draft or erasing, nothing more is written until the file was opened and read again.
// What is deleted is overwritten with zeros (secure_delete), drafts too: nobody's name stays behind
// in the unused parts of a page.
#pragma once

#include "app/store/database.hpp"
#include "core/base/result.hpp"
#include "core/seal/secret.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline store {

// One event as text.
struct event_row {
  std::int64_t seq{0};
  std::string body;
  std::string hash;
};

// The open journal of one test. Closed when this is gone.
class journal_file {
public:
  // Opens the file (making a key and the tables of an empty one) and takes it for itself: a second
  // copy is refused while this one lives. Refuses a file of another kind or a newer version, and a
  // sealed one whose key cannot be read.
  [[nodiscard]] static result<journal_file> open(const std::string& path);

  // Refuses (as `malformed`) a file whose pages do not hold together.
  [[nodiscard]] result<void> check() const;
  // Refuses (as `malformed`) a row that its key does not open.
  [[nodiscard]] result<std::vector<event_row>> read_all() const;

  // Appends the rows in one transaction, all or none; durable when it returns.
  [[nodiscard]] result<void> append(const std::vector<event_row>& rows);

  // What every further write is refused with: the first write that failed, or that it is erased.
  [[nodiscard]] const std::optional<refusal>& failure() const { return failure_; }
  [[nodiscard]] std::int64_t last_seq() const { return last_seq_; }

  // Drafts: kept as typed, key by key. An empty value removes the key.
  [[nodiscard]] result<void> keep_draft(const std::string& key, const std::string& value);
  // One that its key does not open is left out.
  [[nodiscard]] result<std::map<std::string, std::string>> drafts() const;

  // Destroys the key, and with it every event and draft for good; then takes the rows out. Of an
  // unsealed one the rows go in one transaction, all or none, with a mark that it was erased: one
  // that was killed meanwhile holds the whole test or nothing of it. Nothing is appended to it any
  // more; its file is for the caller to remove.
  [[nodiscard]] result<void> erase();

private:
  explicit journal_file(store::database db) : db_(std::move(db)) {}
  // Keeps why a write failed: nothing more is written.
  [[nodiscard]] result<void> stop(refusal why);

  store::database db_;
  std::optional<seal::secret<32>> key_; // none: the journal is unsealed
  std::int64_t last_seq_{0};
  std::optional<refusal> failure_;
};

// Whether that refusal says that another copy of the program has the test open.
[[nodiscard]] bool is_held_elsewhere(const refusal& no);

// The number of the last event of the journal at `path`, where SQLite finds nothing wrong with the
// file; nothing where it does. Changes nothing.
[[nodiscard]] std::optional<std::int64_t> last_of_sound_journal(const std::string& path);

// Whether the file at `path` is a journal whose test was erased. Changes nothing; what cannot be
// read, or is another copy's now, is not.
[[nodiscard]] bool is_erased_journal(const std::string& path);

} // namespace qb::inline store
