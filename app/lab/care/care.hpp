// The commands that look after the store, and after what is in it twice: copied, checked, and which
// of several logs counts. Each answers an exit status, as those of commands.hpp do.
#pragma once

#include "app/lab/context/lab_context.hpp"

#include <string>

namespace qb::lab {

// The whole store as it is at one moment, into a new file, which is then checked.
[[nodiscard]] int back_up(const shared_options& shared, const std::string& file, const console& to);

// Whether the store is whole: SQLite's own check, what its tables say of each other, every log's
// chain of hashes and signature, and every row that receiving wrote. A damaged one is named with
// its kit, and the next is looked at. JSON: {"store", "tests", "versions", "kits", "notes": [],
// "amiss": [{what, kit, words}]}.
[[nodiscard]] int check_store(const shared_options& shared, const console& to);

// The versions of a test's log; with `log`, the beginning of one's digest, a named person says that
// it counts. JSON: {"test", "kit", "versions": [{log, events, counts, signature}]}.
struct which_log_options {
  std::string kit_or_test;
  std::string log;
  std::string reason;
};
[[nodiscard]] int which_log(const shared_options& shared, const lab_context_options& at,
                            const which_log_options& o, const console& to);

} // namespace qb::lab
