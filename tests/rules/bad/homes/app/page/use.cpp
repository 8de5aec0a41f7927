// What uses those folders.
// Bad on purpose: tests/rules/run must find it.
#include "core/plan/end.hpp"
#include "core/plan/start.hpp"
#include "core/session/begin.hpp"

namespace qb::page {

int of_all() {
  return of_plans() + of_ends() + of_sessions();
}

} // namespace qb::page
