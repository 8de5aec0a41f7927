// Names of one folder, two of which another folder gives again.
// Bad on purpose: tests/rules/run must find it.
#pragma once

namespace qb::inline plans {

// When it begins, in minutes after midnight.
struct beginning {
  int minute{0};

  int clash(int with) const { return minute - with; }
};

// The minute of it, and of a later one.
int minute_of(const beginning& b);
int minute_of(const beginning& b, int later);

} // namespace qb::inline plans
