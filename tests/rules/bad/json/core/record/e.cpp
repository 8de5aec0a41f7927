// One of five sources that use it.
// Bad on purpose: tests/rules/run must find it.
#include <nlohmann/json.hpp>
