// Two points in time have no sum; a point and an elapsed time have.
// With OFFEND defined, this must not compile.
#include "core/time/instant.hpp"

qb::instant happy(qb::instant a, qb::duration b) {
  return a + b;
}

#ifdef OFFEND
auto offending(qb::instant a, qb::instant b) {
  return a + b; // offends
}
#endif
