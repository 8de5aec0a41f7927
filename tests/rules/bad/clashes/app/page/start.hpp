// The same names in a namespace of their own.
// Bad on purpose: tests/rules/run must find it.
#pragma once

#include "core/plan/end.hpp"
#include "core/session/begin.hpp"

namespace qb::page {

// Where the page begins, in points.
struct beginning {
  double top{0};
};

// How many minutes a point stands for.
inline int minute_of(const beginning& b) {
  return qb::clash(static_cast<int>(b.top));
}

} // namespace qb::page
