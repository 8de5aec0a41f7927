// Whether a command may become a fact.
// A command is the fact somebody wants recorded; this checks it against the state and one reading
// and answers the batch of facts it makes, or why not in words a patient can read.
#pragma once

#include "core/session/now.hpp"

#include <vector>

namespace qb::inline sessions {

// What somebody wants recorded. A type of its own, so that a wish cannot pass for a fact.
struct command {
  payload wanted;
};

// The facts that follow, in order: what the clocks did since the last event first, then the wanted
// one. A refusal's `where` is the key of its sentence ("no.too-early"), `expected` that sentence in
// English.
[[nodiscard]] result<std::vector<payload>> decide(const state& s, const command& c,
                                                  const clock_reading& now);

} // namespace qb::inline sessions
