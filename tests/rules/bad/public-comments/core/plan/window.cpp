// What uses that header.
// Bad on purpose: tests/rules/run must find it.
#include "core/plan/window.hpp"
