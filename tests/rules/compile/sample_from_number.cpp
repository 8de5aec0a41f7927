// A bare integer is not a sample number: an index that starts at 0 would look the same.
// With OFFEND defined, this must not compile.
#include "core/protocol/sample_number.hpp"

qb::sample_number happy(int n) {
  return qb::sample_number{n};
}

#ifdef OFFEND
qb::sample_number offending(int n) {
  return n; // offends
}
#endif
