// A test opened whatever became of its record: whole, salvaged, or for reading alone. Nothing that
// happened to a file leaves a person without a window in the middle of a test.
#pragma once

#include "app/patient/screens/view.hpp"
#include "app/patient/shell/running_test.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline shells {

// What came of it. Without `running` nothing is recorded: `shown` is what is known, and the window
// says how to go on with paper.
struct opened_test {
  std::unique_ptr<running_test> running;
  std::optional<salvage_note> salvaged; // it was damaged, and goes on
  std::optional<paper_why> paper;       // set where `running` is not
  state shown;                          // then: as far as it could be read
};

// Opens the journal at `path`. Refuses only where another copy of the program has it open, or where
// it was erased.
[[nodiscard]] result<opened_test> open_whatever(const std::string& path,
                                                const std::vector<std::string>& ask_again,
                                                durable_writes& writes);

// Every question of the tests that are offered: what may have been answered in a record of which
// something is lost. Of those with the same words one is enough.
[[nodiscard]] std::vector<std::string> questions_of(const std::vector<offered_test>& tests);

} // namespace qb::inline shells
