// Adding up along the line, and measuring a restart anew.
#include "core/clock/time_line.hpp"

namespace qb::inline clocks {

namespace {

// Beyond it two wall clocks that nothing vouches for are not compared.
constexpr std::chrono::days most_believed{1}; // no test is taken up again after a day

// Clocks are kept in whole seconds while a machine is off, and read one after the other.
constexpr std::chrono::seconds rounding{2};

bool both_synchronised(const clock_reading& a, const clock_reading& b) {
  return a.synchronised && b.synchronised;
}

// The wall clock went on by at least what is sure to have passed.
bool in_order(const clock_reading& then, const clock_reading& now, duration at_least) {
  return now.wall - then.wall >= at_least - rounding;
}

bool believable(const clock_reading& then, const clock_reading& now, duration at_least) {
  return in_order(then, now, at_least) && now.wall - then.wall <= most_believed;
}

} // namespace

// The time since the reading relied on, by the wall clock as it is at `now`, where that is better.
std::optional<elapsed> time_line::measured_anew(const clock_reading& now) const {
  if (!unsettled_) return std::nullopt;
  const elapsed counted = until_last_ + between(last_, now);
  const duration bound = counted.at_least - unsettled_->until_then.at_least;
  const clock_reading& then = unsettled_->relied_on;
  const bool vouched_for =
      both_synchronised(then, now) && !unsettled_->lying && in_order(then, now, bound);
  const bool set_right = unsettled_->doubtful && believable(then, now, bound);
  if (!vouched_for && !set_right) return std::nullopt;
  const duration gap = std::max(bound, now.wall - then.wall);
  const elapsed anew{gap, certainty::by_wall, bound, both_synchronised(then, now)};
  return unsettled_->until_then + anew;
}

elapsed time_line::at(const clock_reading& now) const {
  if (const auto anew = measured_anew(now)) return *anew;
  return until_last_ + between(last_, now);
}

// A later restart while one is unsettled: the reading relied on stays, its clock was the better.
void time_line::note_restart(const clock_reading& now) {
  const duration running = between(last_, now).at_least;
  const bool vouched_for = both_synchronised(last_, now);
  const bool believed =
      vouched_for ? in_order(last_, now, running) : believable(last_, now, running);
  if (believed && (now.synchronised || !last_.synchronised) && !unsettled_) return;
  if (!unsettled_) unsettled_ = unsettled_restart{last_, until_last_, false, false};
  unsettled_->doubtful = unsettled_->doubtful || !believed;
  unsettled_->lying = unsettled_->lying || (!believed && now.synchronised);
}

duration time_line::go_on(const clock_reading& now) {
  const elapsed counted = until_last_ + between(last_, now);
  const auto anew = measured_anew(now);
  const bool settled = anew && (now.synchronised || !unsettled_->relied_on.synchronised);
  if (settled) {
    unsettled_.reset();
  } else if (anew) {
    unsettled_->doubtful = false; // believed until a time service vouches for another
  }
  if (!anew && restarted(last_, now)) note_restart(now);
  until_last_ = anew.value_or(counted);
  last_ = now;
  return anew ? anew->length - counted.length : duration{0};
}

} // namespace qb::inline clocks
