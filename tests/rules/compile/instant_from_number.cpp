// A bare number is not a point in time: nobody could see its unit or where it counts from.
// With OFFEND defined, this must not compile.
#include "core/time/instant.hpp"

qb::instant happy(std::int64_t ms) {
  return qb::from_unix_ms(ms);
}

#ifdef OFFEND
qb::instant offending(std::int64_t ms) {
  return ms; // offends
}
#endif
