// Sets of points of a time line as sorted, disjoint, half-open intervals, and their arithmetic.
// When a test can be is the intersection of several such sets; so nothing steps through minutes.
#pragma once

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace qb::inline plans {

// One stretch of a time line; `until` is not part of it. Empty where `until` is not after `from`.
template <typename Time>
struct stretch {
  Time from;
  Time until;
};

// A set of points in time. A value; always in its one form: sorted, no two stretches touch, none is
// empty.
template <typename Time>
class intervals {
public:
  using step = typename Time::duration;

  intervals() = default;
  // The points that are in any of the stretches, which may overlap, touch or be empty.
  explicit intervals(std::vector<stretch<Time>> any) {
    std::sort(any.begin(), any.end(), [](const auto& a, const auto& b) { return a.from < b.from; });
    for (const stretch<Time>& one : any) {
      if (!(one.from < one.until)) continue;
      if (!all_.empty() && one.from <= all_.back().until)
        all_.back().until = std::max(all_.back().until, one.until);
      else
        all_.push_back(one);
    }
  }

  [[nodiscard]] const std::vector<stretch<Time>>& all() const { return all_; }
  [[nodiscard]] bool empty() const { return all_.empty(); }

  // The points that are in both.
  [[nodiscard]] intervals operator&(const intervals& other) const {
    std::vector<stretch<Time>> both;
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < all_.size() && j < other.all_.size()) {
      const stretch<Time>& a = all_[i];
      const stretch<Time>& b = other.all_[j];
      both.push_back({std::max(a.from, b.from), std::min(a.until, b.until)});
      ++(a.until < b.until ? i : j);
    }
    return intervals(std::move(both));
  }

  // The points of this set that are not in the other.
  [[nodiscard]] intervals operator-(const intervals& other) const {
    if (all_.empty()) return {};
    std::vector<stretch<Time>> rest;
    Time from = all_.front().from;
    for (const stretch<Time>& hole : other.all_) {
      rest.push_back({from, hole.from});
      from = std::max(from, hole.until);
    }
    rest.push_back({from, all_.back().until});
    return *this & intervals(std::move(rest));
  }

  // The points from which everything between `before` earlier and `after` later, both ends
  // included, is in one stretch of this set.
  [[nodiscard]] intervals with_room(step before, step after) const {
    std::vector<stretch<Time>> rest;
    for (const stretch<Time>& one : all_)
      rest.push_back({one.from + before, one.until - after});
    return intervals(std::move(rest));
  }

  // The first point that is not before `t`.
  [[nodiscard]] std::optional<Time> first_from(Time t) const {
    for (const stretch<Time>& one : all_) {
      if (t < one.until) return std::max(t, one.from);
    }
    return std::nullopt;
  }

  [[nodiscard]] bool holds(Time t) const { return first_from(t) == t; }

private:
  std::vector<stretch<Time>> all_;
};

} // namespace qb::inline plans
