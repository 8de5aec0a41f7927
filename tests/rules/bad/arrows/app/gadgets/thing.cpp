// A part of app that the design does not know.
// Bad on purpose: tests/rules/run must find it.
#include "app/machine/clocks.hpp"
