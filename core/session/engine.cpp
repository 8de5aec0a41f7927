// Submitting and settling.
#include "core/session/engine.hpp"

namespace qb {

engine::engine(event_keeper& keeper, std::vector<event> kept)
    : keeper_(keeper), events_(std::move(kept)), state_(fold_events(events_)) {}

result<void> engine::submit(const command& c, const clock_reading& now) {
  if (saving()) {
    if (!is_always_heard(c.wanted))
      return tl::unexpected(refusal{refusal_kind::busy, "", "no.busy", "", "Saving. One moment."});
    heard_.emplace_back(c, now);
    return {};
  }
  const auto done = hand_over(c, now);
  settle();
  return done;
}

result<void> engine::hand_over(const command& c, const clock_reading& now) {
  if (const auto failed = keeper_.failure()) return tl::unexpected(*failed);
  const auto facts = decide(state_, c, now);
  if (!facts) return tl::unexpected(facts.error());
  std::vector<event> batch;
  std::int64_t seq = state_.seq;
  for (const payload& fact : *facts)
    batch.push_back(event{++seq, now, fact});
  const auto accepted = keeper_.append(batch);
  if (!accepted) return tl::unexpected(accepted.error());
  in_flight_ = std::move(batch);
  return {};
}

void engine::settle() {
  if (in_flight_.empty() || keeper_.durable() < in_flight_.back().seq) return;
  for (event& e : in_flight_) {
    state_ = apply(std::move(state_), e);
    events_.push_back(std::move(e));
  }
  in_flight_.clear();
  while (in_flight_.empty() && !heard_.empty()) {
    const auto [next, at] = heard_.front();
    // Where the keeper fails it is not lost: it waits until whoever owns the engine reopens it.
    if (keeper_.failure()) return;
    heard_.pop_front();
    // Refused only for a value that cannot be read back, as it would have been at once.
    (void)hand_over(next, at);
    settle();
  }
}

} // namespace qb
