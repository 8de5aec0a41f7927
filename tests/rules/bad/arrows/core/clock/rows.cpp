// A clock that knows the session that looks at it.
// Bad on purpose: tests/rules/run must find it.
#include "core/session/state.hpp"
