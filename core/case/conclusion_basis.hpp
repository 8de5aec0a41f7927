// What a conclusion was drawn from, kept with it, and what came since.
// A reader's words stand on what was here when they were written. Whatever receiving tells later, a
// log that grew, or a rule that weighs a finding otherwise, makes the report a draft again. Counts
// and not moments decide: a clock that was set cannot make an old conclusion fresh.
#pragma once

#include "core/case/case.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline cases {

// A case as a reader saw it. Receiving's lists only grow, so their lengths say what was there.
struct conclusion_basis {
  std::size_t boxes{0};
  std::size_t sheets{0};
  std::size_t readings{0};
  std::size_t choices{0};
  std::size_t overrides{0};
  std::size_t rulings{0}; // words of named persons on its rows; 0 of an earlier version's
  std::string record;     // "log 57 ab12…", "code 57 …" or "paper"
  std::vector<std::string> findings; // "lid-bad 4 review", each once, sorted
  std::vector<std::string> answers;  // "nac-2017-ch4 meets", or "not judged"
};

// The case as it is now.
[[nodiscard]] conclusion_basis basis_in(const test_case& c, const received_kit& received);

// As one line of canonical JSON, and back; nothing where it is none of ours.
[[nodiscard]] std::string basis_text(const conclusion_basis& s);
[[nodiscard]] std::optional<conclusion_basis> read_basis(std::string_view text);

// What came after the last conclusion, each in a few words with the moment it was told where one
// is known; empty where nothing did, or nobody concluded. A conclusion that an earlier version kept
// has nothing seen: only moments can be compared then, and a later log is not noticed.
[[nodiscard]] std::vector<std::string> came_since(const test_case& c, const received_kit& received);

} // namespace qb::inline cases
