// The definitions. A comment that says turns_in_circles() is no call, nor are "words of it".
#include "core/plan/called.hpp"

namespace qb::inline plans {

std::string called(const gadget& g) {
  return "turns_in_circles" + std::to_string(g.size());
}

int turns_in_circles(int from) {
  return from > 0 ? turns_in_circles(from - called_by_a_dead_one(1)) : 0;
}

int called_by_a_dead_one(int from) {
  return from;
}

void gadget::grow(const std::function<int(int)>& by, int times) {
  for (int i = 0; i < times; ++i)
    size_ = by(size_);
}

void gadget::shrink(const std::function<int(int)>& by, int times) {
  grow(by, -times);
}

int begins(int from) {
  return static_cast<int>(called(gadget(from)).size());
}

} // namespace qb::inline plans
