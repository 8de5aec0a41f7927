// A civil time is not an elapsed time: 12 hours of fast are counted, 12:00 is read off a wall.
// With OFFEND defined, this must not compile.
#include "core/time/civil.hpp"
#include "core/time/instant.hpp"

qb::duration happy(qb::civil_time a, qb::civil_time b) {
  return a - b;
}

#ifdef OFFEND
qb::duration offending(qb::civil_time a) {
  return a; // offends
}
#endif
