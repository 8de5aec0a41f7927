// The machine's time since it was started and the wall clock's instants are two time lines.
// With OFFEND defined, this must not compile.
#include "core/time/instant.hpp"

qb::duration happy(qb::boot_time a, qb::boot_time b) {
  return a - b;
}

#ifdef OFFEND
auto offending(qb::boot_time a, qb::instant b) {
  return a - b; // offends
}
#endif
