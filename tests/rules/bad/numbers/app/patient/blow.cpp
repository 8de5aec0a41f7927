// A shell that knows the grid.
// Bad on purpose: tests/rules/run must find it.
#include <chrono>

constexpr auto next_due = std::chrono::minutes(15);
constexpr int pixels = 720;
