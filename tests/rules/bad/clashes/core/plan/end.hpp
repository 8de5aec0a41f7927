// An overload in the same folder: one idea.
// Bad on purpose: tests/rules/run must find it.
#pragma once

#include "core/plan/start.hpp"

namespace qb::inline plans {

struct ending;

// The minute of the end.
int minute_of(const ending& e);

// Another meaning than the same word in a class has.
int clash(int with);

} // namespace qb::inline plans
