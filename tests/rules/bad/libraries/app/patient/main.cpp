// The one place for it on this side.
// Bad on purpose: tests/rules/run must find it.
#include <CLI/CLI.hpp>
