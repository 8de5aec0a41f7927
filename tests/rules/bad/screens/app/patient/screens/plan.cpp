// A screen that changes the state itself.
// Bad on purpose: tests/rules/run must find it.
#include "core/plan/plan.hpp"
#include "core/session/apply.hpp"
