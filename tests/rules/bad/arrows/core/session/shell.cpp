// A session that looks at the shell.
// Bad on purpose: tests/rules/run must find it.
#include "app/machine/clocks.hpp"
