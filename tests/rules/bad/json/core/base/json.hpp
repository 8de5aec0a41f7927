// A header that makes everyone pay for the library.
// Bad on purpose: tests/rules/run must find it.
#pragma once
#include <nlohmann/json.hpp>
