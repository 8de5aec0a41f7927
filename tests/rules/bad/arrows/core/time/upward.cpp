// Time that looks at the session built on it.
// Bad on purpose: tests/rules/run must find it.
#include "core/session/state.hpp"
#include "core/time/instant.hpp"
