// Functions of which some are called by nobody but a test.
// Bad on purpose: tests/rules/run must find it.
#pragma once

#include <functional>
#include <string>

namespace qb::inline plans {

// A thing with members.
class gadget {
public:
  explicit gadget(int size) : size_(size) {}
  [[nodiscard]] int size() const { return size_; }
  [[nodiscard]] int size_of_nobody() const { return size_; }
  void grow(const std::function<int(int)>& by, int times = {});
  void shrink(const std::function<int(int)>& by, int times = {});

private:
  int size_;
};

// Called by called.cpp.
[[nodiscard]] std::string called(const gadget& g);

// Calls itself, and nobody calls it.
[[nodiscard]] int turns_in_circles(int from);

// Called by the one above alone.
[[nodiscard]] int called_by_a_dead_one(int from);

// Begins all.
int begins(int from);

} // namespace qb::inline plans
