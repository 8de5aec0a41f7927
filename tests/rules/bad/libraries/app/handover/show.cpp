// A command that parses the command line itself.
// Bad on purpose: tests/rules/run must find it.
#include <CLI/CLI.hpp>
