// A refusal cannot be overlooked: a function that may refuse must be asked for its answer.
// With OFFEND defined, this must not compile.
#include "core/base/result.hpp"

[[nodiscard]] qb::result<int> may_refuse();

int happy() {
  return may_refuse().value_or(1);
}

#ifdef OFFEND
void offending() {
  may_refuse(); // offends
}
#endif
