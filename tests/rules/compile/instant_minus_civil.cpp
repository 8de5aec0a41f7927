// A civil time becomes an instant only through a named zone, never by subtraction.
// With OFFEND defined, this must not compile.
#include "core/time/civil.hpp"
#include "core/time/instant.hpp"

qb::duration happy(qb::instant a, qb::instant b) {
  return a - b;
}

#ifdef OFFEND
auto offending(qb::instant a, qb::civil_time b) {
  return a - b; // offends
}
#endif
