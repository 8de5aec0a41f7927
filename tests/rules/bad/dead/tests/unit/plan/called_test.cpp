// A test is no caller.
#include "core/plan/called.hpp"

int test() {
  qb::gadget(1).shrink({});
  return qb::turns_in_circles(1) + qb::gadget(1).size_of_nobody();
}
