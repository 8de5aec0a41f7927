// Work on what cannot be trusted, done by a child of this process.
// A reader of somebody else's format can be made to run for ever, to ask for all memory, or to fall
// over. Here it does so in a process of its own, which the system ends at a limit: this one is told
// and goes on. Of the child there is nothing but its answer; it opens no file and writes none.
#pragma once

#include "core/base/result.hpp"

#include <cstddef>
#include <functional>
#include <string>

namespace qb::inline machines {

// What the child may use. Processor time bounds the work, the deadline also what it waits for.
struct confinement {
  std::size_t more_memory;        // beside what this process has already
  unsigned int processor_seconds; // its own time
  unsigned int deadline_seconds;  // anybody's
  std::size_t most_answer;
};

// What `work` answers in a child. Refuses as `out_of_range` where a limit ended it, as `malformed`
// where it fell over, as `machine` where there can be no child; `where` names what was worked on.
// Whatever `work` changes stays in the child.
[[nodiscard]] result<std::string> confined(const std::function<std::string()>& work,
                                           const confinement& limits, const char* where);

} // namespace qb::inline machines
