// A header that explains only half of what it offers.
// Bad on purpose: tests/rules/run must find it.
#pragma once

namespace qb::inline plans {

// From when until when, in minutes from the start.
struct explained {
  int from;

  int until;
};

struct unexplained {
  int from;
};

// Two sizes, under one comment.
int width(const explained& window);
int height(const explained& window);

int length(const explained& window);

[[nodiscard]] bool is_open(const explained& window);

enum class state { open, closed };

template <typename T>
T twice(T value) {
  return value + value;
}

struct only_announced;

} // namespace qb::inline plans
