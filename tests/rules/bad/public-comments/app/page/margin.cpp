// What uses that header.
// Bad on purpose: tests/rules/run must find it.
#include "app/page/margin.hpp"

namespace qb::page {

double both_margins() {
  return left_margin() + right_margin();
}

} // namespace qb::page
