// A screen that asks for the time.
// Bad on purpose: tests/rules/run must find it.
#include "core/clock/clock_reading.hpp"
