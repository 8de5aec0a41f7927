// The keeper of events on the disk: encodes them, chains their hashes, and appends them to the
// journal. The bridge between core/record and app/store, which do not know each other.
#pragma once

#include "app/machine/durable.hpp"
#include "app/store/journal_file.hpp"
#include "core/session/engine.hpp"

#include <string>
#include <vector>

namespace qb::inline store {

// Hands events to the journal; refuses, without a failure, what could not be read back.
class journal_keeper : public event_keeper {
public:
  // Takes the open journal; `head` is the hash of its last event (chain_start() for an empty one).
  // A row counts once `later` calls it durable; without one, when the journal took it.
  journal_keeper(journal_file journal, std::string head, durable_writes* later)
      : journal_(std::move(journal)),
        head_(std::move(head)),
        later_(later),
        before_(journal_.last_seq()) {}

  [[nodiscard]] result<std::int64_t> append(const std::vector<event>& batch) override;
  [[nodiscard]] std::int64_t durable() const override;
  [[nodiscard]] std::optional<refusal> failure() const override;

  [[nodiscard]] journal_file& journal() { return journal_; }
  [[nodiscard]] const journal_file& journal() const { return journal_; }

private:
  journal_file journal_;
  std::string head_;
  durable_writes* later_;
  std::int64_t before_; // the last event before the last append
  written_mark appended_{0};
};

// A journal reread: its events, and the hash of the last.
struct reread_journal {
  std::vector<event> events;
  std::string head;
};

// Reads every row strictly and checks the chain; refuses a row that does not fit, by its number.
// A file whose pages do not hold together is refused by `open_journal` before that.
[[nodiscard]] result<reread_journal> reread(const journal_file& journal);

// Opens (making a new one with mode 0600 where there is none) and rereads the journal at `path`, as
// far as it is durable. Without `later` every row is durable when the journal took it.
struct opened_journal {
  journal_keeper keeper;
  std::vector<event> events;
};
[[nodiscard]] result<opened_journal> open_journal(const std::string& path,
                                                  durable_writes* later = nullptr);

} // namespace qb::inline store
