// The number of a sample, which is also the number of its tube and of its label, always.
// A type of its own, so that an index, a count or a minute cannot pass for it.
#pragma once

#include "core/base/result.hpp"

#include <cstddef>

namespace qb::inline protocols {

// 1 to 24. Making one outside that range is a broken belief: outside data is checked before.
class sample_number {
public:
  static constexpr int most = 24;
  [[nodiscard]] static constexpr bool in_range(long long n) { return n >= 1 && n <= most; }

  explicit sample_number(int n) : n_(n) { QB_BELIEVE(in_range(n)); }
  // The number as printed on the tube.
  [[nodiscard]] int value() const { return n_; }
  // Its place in a list of all samples, from 0.
  [[nodiscard]] std::size_t index() const { return static_cast<std::size_t>(n_ - 1); }
  [[nodiscard]] static sample_number from_index(std::size_t i) {
    return sample_number(static_cast<int>(i) + 1);
  }

  friend bool operator==(sample_number a, sample_number b) { return a.n_ == b.n_; }
  friend bool operator!=(sample_number a, sample_number b) { return a.n_ != b.n_; }
  friend bool operator<(sample_number a, sample_number b) { return a.n_ < b.n_; }

private:
  int n_;
};

} // namespace qb::inline protocols
