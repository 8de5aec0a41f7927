// One test's journal, opened and running.
#pragma once

#include "app/machine/disk.hpp"
#include "app/store/data_folders.hpp"
#include "app/store/journal_keeper.hpp"

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>

namespace qb::inline shells {

// Holds the journal's lock: while it lives no other process opens the same test.
class running_test {
public:
  // Opens and rereads the journal at `path`, making a new one where there is none. What is told
  // counts once `writes` calls it durable.
  [[nodiscard]] static result<std::unique_ptr<running_test>> open(const std::string& path,
                                                                  durable_writes& writes);
  running_test(const running_test&) = delete;
  running_test& operator=(const running_test&) = delete;

  [[nodiscard]] engine& session() { return engine_; }
  [[nodiscard]] const engine& session() const { return engine_; }
  [[nodiscard]] const std::string& path() const { return path_; }

  // What was typed and not confirmed, as rows. Saving writes only what differs, and takes out what
  // is not among them any more.
  [[nodiscard]] std::map<std::string, std::string> drafts() const;
  [[nodiscard]] result<void> save_drafts(const std::map<std::string, std::string>& drafts);

  // Keeps the rows without which no due time is known once more, beside the journal, where they
  // changed since. A disk that refuses is no matter: the journal has them.
  void keep_key_rows(disk& device);

  // Erases the test, whole or not at all; afterwards this may only be closed. Its files are left to
  // `remove_erased`.
  [[nodiscard]] result<void> erase() { return keeper_.journal().erase(); }

private:
  running_test(std::string path, opened_journal journal);

  std::string path_;
  journal_keeper keeper_;
  engine engine_;
  std::map<std::string, std::string> saved_;
  std::ptrdiff_t looked_for_keys_{0}; // up to that event
};

} // namespace qb::inline shells
