// Which of the tests in a folder is running: a small file of its own, never the time of a file.
//
// The file "running" has three lines: "quarterbreath-running 1", the test's id, and the SHA-256 of
// the first two with their line ends. It is written with each test that is begun. Where it is
// missing, damaged, or names a test that is not there any more, the records themselves say: the
// test whose last entry is the latest.
#pragma once

#include "app/machine/disk.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline store {

// Writes that this test is running; synced and renamed.
[[nodiscard]] result<void> note_running(disk& device, const std::string& folder,
                                        const std::string& test_id);

// The journal of the running test, one of `journals` (those of the folder that are not erased);
// nothing where none of them holds a test.
[[nodiscard]] std::optional<std::string> running_journal(const std::string& folder,
                                                         const std::vector<std::string>& journals);

// Where that file is.
[[nodiscard]] std::string running_index_path(const std::string& folder);

} // namespace qb::inline store
