// A part of app may use what is listed for it and nothing else of app: machine, and not glass.
// Bad on purpose: tests/rules/run must find it.
#include "app/glass/pane.hpp"
#include "app/machine/clocks.hpp"
#include "core/session/state.hpp"
