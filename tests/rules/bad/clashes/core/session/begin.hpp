// The same type and function in another folder of the same namespace.
// Bad on purpose: tests/rules/run must find it.
#pragma once

namespace qb::inline sessions {

// Announced, and not declared again.
struct ending;

// Another beginning than the plan's.
enum class beginning { now, later };

// Of whatever can be counted.
template <typename T>
[[nodiscard]] int minute_of(const T& what) {
  return static_cast<int>(what);
}

} // namespace qb::inline sessions
