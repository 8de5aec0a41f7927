// What uses that header.
// Bad on purpose: tests/rules/run must find it.
#include "app/page/start.hpp"

namespace qb::page {

int minute_at_the_top() {
  return minute_of(beginning{}) + clash(1);
}

} // namespace qb::page
